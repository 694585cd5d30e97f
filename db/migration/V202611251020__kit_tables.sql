-- What a site holds, by label or code; everything else about it is told to the ledger.
create table kit_set (
    site_id uuid not null,
    id      uuid not null,
    label   text not null,
    constraint kit_set_pk primary key (site_id, id),
    constraint kit_set_label_once unique (site_id, label),
    constraint kit_set_label_length check (length(label) between 1 and 40)
);
alter table kit_set enable row level security;
alter table kit_set force row level security;
create policy kit_set_by_site on kit_set to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);

create table kit_model (
    site_id uuid not null,
    id      uuid not null,
    code   text not null,
    constraint kit_model_pk primary key (site_id, id),
    constraint kit_model_code_once unique (site_id, code),
    constraint kit_model_code_length check (length(code) between 1 and 40)
);
alter table kit_model enable row level security;
alter table kit_model force row level security;
create policy kit_model_by_site on kit_model to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);

create table kit_instrument (
    site_id uuid not null,
    id      uuid not null,
    code   text not null,
    constraint kit_instrument_pk primary key (site_id, id),
    constraint kit_instrument_code_once unique (site_id, code),
    constraint kit_instrument_code_length check (length(code) between 1 and 40)
);
alter table kit_instrument enable row level security;
alter table kit_instrument force row level security;
create policy kit_instrument_by_site on kit_instrument to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);

create table kit_supply (
    site_id uuid not null,
    id      uuid not null,
    code   text not null,
    constraint kit_supply_pk primary key (site_id, id),
    constraint kit_supply_code_once unique (site_id, code),
    constraint kit_supply_code_length check (length(code) between 1 and 40)
);
alter table kit_supply enable row level security;
alter table kit_supply force row level security;
create policy kit_supply_by_site on kit_supply to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);

-- Who had which set when, derived from the claims in the ledger and rebuilt with each of them; the database refuses overlap.
create table kit_custody (
    site_id   uuid      not null,
    set_id    uuid      not null,
    during    tstzrange not null,
    worker_id uuid      not null,
    claim_id  uuid      not null,
    constraint kit_custody_pk primary key (site_id, set_id, claim_id),
    constraint kit_custody_set_fk foreign key (site_id, set_id) references kit_set (site_id, id),
    constraint kit_custody_not_empty check (not isempty(during)),
    constraint kit_custody_no_overlap exclude using gist (site_id with =, set_id with =, during with &&)
);
create index kit_custody_by_worker on kit_custody (site_id, worker_id);
alter table kit_custody enable row level security;
alter table kit_custody force row level security;
create policy kit_custody_by_site on kit_custody to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);
