-- Who came in, who was refused and who changed an account: added to, never changed, apart for each site.
create table audit_event (
    site_id     uuid        not null,
    event_id    uuid        not null,
    recorded_at timestamptz not null default clock_timestamp(),
    kind        text        not null,
    actor       uuid,
    subject     uuid,
    source      text,
    detail      text,
    constraint audit_event_pk primary key (site_id, event_id),
    constraint audit_event_site foreign key (site_id) references site (site_id),
    constraint audit_event_kind_form check (kind ~ '^[a-z][A-Za-z.]{2,60}$'),
    constraint audit_event_detail_length check (length(detail) <= 400)
);

create index audit_event_by_time on audit_event (site_id, recorded_at);

-- What belongs to no site: sign-ins, links, the first start.
create table service_audit_event (
    event_id    uuid        not null,
    recorded_at timestamptz not null default clock_timestamp(),
    kind        text        not null,
    actor       uuid,
    subject     uuid,
    source      text,
    detail      text,
    constraint service_audit_event_pk primary key (event_id),
    constraint service_audit_event_kind_form check (kind ~ '^[a-z][A-Za-z.]{2,60}$'),
    constraint service_audit_event_detail_length check (length(detail) <= 400)
);

create index service_audit_event_by_time on service_audit_event (recorded_at);

revoke update, delete on audit_event, service_audit_event from "${appRole}";

-- for the owner of the table as well: nobody reads another site's trail by accident
alter table audit_event enable row level security;
alter table audit_event force row level security;
create policy audit_event_of_bound_site on audit_event to "${appRole}"
    using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);
create policy audit_event_for_verifier on audit_event for select to "${verifierRole}" using (true);
