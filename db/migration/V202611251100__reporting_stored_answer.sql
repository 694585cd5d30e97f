-- What somebody acted on, kept as it was given: a view computed later for an old moment is another thing.
create table stored_answer (
    site_id    uuid        not null,
    id         uuid        not null,
    asked_at   timestamptz not null,
    account_id uuid        not null,
    purpose    text        not null,
    worker_id  uuid        not null,
    task_id    uuid        not null,
    set_id     uuid,
    model_id   uuid,
    wear_from  timestamptz not null,
    wear_until timestamptz not null,
    known_at   timestamptz not null,
    verdict    text        not null,
    records    uuid[]      not null,
    rule_sets  text        not null,
    program    text        not null,
    constraint stored_answer_pk primary key (site_id, id),
    constraint stored_answer_purpose check (purpose in ('gate', 'issue', 'report')),
    constraint stored_answer_verdict check (verdict in ('CLEARED', 'CLEARED_WITH_CONDITIONS', 'NOT_CLEARED'))
);
create index stored_answer_by_worker on stored_answer (site_id, worker_id, wear_from);
alter table stored_answer enable row level security;
alter table stored_answer force row level security;
create policy stored_answer_by_site on stored_answer to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);
revoke update, delete, truncate on stored_answer from "${appRole}";
