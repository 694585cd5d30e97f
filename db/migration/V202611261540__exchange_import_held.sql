-- Which sets a file put on hold: whoever sent it has to go and get them.
create table import_held (
    site_id uuid not null,
    job_id  uuid not null,
    set_id  uuid not null,
    constraint import_held_pk primary key (site_id, job_id, set_id),
    constraint import_held_job_fk foreign key (site_id, job_id) references import_job (site_id, id),
    constraint import_held_set_fk foreign key (site_id, set_id) references kit_set (site_id, id)
);
create index import_held_by_set on import_held (site_id, set_id);
revoke update, delete on import_held from "${appRole}";

alter table import_held enable row level security;
alter table import_held force row level security;
create policy import_held_by_site on import_held to "${appRole}"
    using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);
