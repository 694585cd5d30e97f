-- Looking back: which records a file rested on that somebody was given, and how each wear was and is judged.

create table issued_file (
    site_id    uuid        not null,
    id         uuid        not null,
    issued_at  timestamptz not null,
    account_id uuid        not null,
    about      text        not null,
    known_at   timestamptz not null,
    records    uuid[]      not null,
    digest     bytea       not null, -- SHA-256 of the very bytes that were given
    constraint issued_file_pk primary key (site_id, id)
);
create index issued_file_by_time on issued_file (site_id, issued_at);
alter table issued_file enable row level security;
alter table issued_file force row level security;
create policy issued_file_by_site on issued_file to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);
create policy issued_file_verified on issued_file for select to "${verifierRole}" using (true);
revoke update, delete, truncate on issued_file from "${appRole}";

-- a correction asks which answers were given while a record stood
create index stored_answer_by_time on stored_answer (site_id, asked_at);

-- a cache: what the screen said at the start of a wear never changes, what is known now is judged again when something is told late
create table judged_wear (
    site_id    uuid        not null,
    wear_id    uuid        not null,
    exit_id    uuid,
    root_id    uuid        not null,
    worker_id  uuid        not null,
    set_id     uuid        not null,
    task_id    uuid        not null,
    wear_from  timestamptz not null,
    wear_until timestamptz,
    told_at    timestamptz not null,
    then_verdict text      not null,
    then_barred  text[]    not null,
    then_stored  boolean   not null,
    now_verdict  text      not null,
    now_barred   text[]    not null,
    judged_at  timestamptz not null,
    constraint judged_wear_pk primary key (site_id, wear_id)
);
create index judged_wear_by_time on judged_wear (site_id, wear_from);
alter table judged_wear enable row level security;
alter table judged_wear force row level security;
create policy judged_wear_by_site on judged_wear to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);
