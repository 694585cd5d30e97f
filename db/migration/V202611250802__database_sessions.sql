-- Signed-in sessions outlive a restart and are shared by several instances: the tables of Spring Session 4.1.
create table spring_session (
    primary_id            char(36) not null,
    session_id            char(36) not null,
    creation_time         bigint   not null,
    last_access_time      bigint   not null,
    max_inactive_interval int      not null,
    expiry_time           bigint   not null,
    principal_name        varchar(100),
    constraint spring_session_pk primary key (primary_id)
);

create unique index spring_session_by_session on spring_session (session_id);
create index spring_session_by_expiry on spring_session (expiry_time);
create index spring_session_by_principal on spring_session (principal_name);

create table spring_session_attributes (
    session_primary_id char(36)     not null,
    attribute_name     varchar(200) not null,
    attribute_bytes    bytea        not null,
    constraint spring_session_attributes_pk primary key (session_primary_id, attribute_name),
    constraint spring_session_attributes_session_fk foreign key (session_primary_id)
        references spring_session (primary_id) on delete cascade
);

-- with one database user for everything, the service itself would lose them
do
$$
begin
    if '${verifierRole}' <> '${appRole}' then
        revoke select on spring_session, spring_session_attributes from "${verifierRole}";
    end if;
end
$$;
