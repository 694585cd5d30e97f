-- The people of a site. What changes with a date is told to the ledger; name and number are how we speak of them.
create table worker (
    site_id  uuid not null,
    id       uuid not null,
    number   text not null,
    name     text not null,
    employer text,
    constraint worker_pk primary key (site_id, id),
    constraint worker_number_once unique (site_id, number),
    constraint worker_name_length check (length(name) between 1 and 120)
);
alter table worker enable row level security;
alter table worker force row level security;
create policy worker_by_site on worker to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);
