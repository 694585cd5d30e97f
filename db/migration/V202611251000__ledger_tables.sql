-- What the site was told: records that are only ever added, in entries that are sealed into one chain per site.

create table ledger_entry (
    site_id        uuid        not null,
    id             uuid        not null,
    recorded_at    timestamptz not null,
    written_at     timestamptz not null,
    account_id     uuid        not null,
    via            text        not null,
    records        integer     not null,
    records_digest bytea       not null,
    hash           bytea       not null,
    constraint ledger_entry_pk primary key (site_id, id),
    constraint ledger_entry_via check (via in ('form', 'import', 'command', 'demo', 'service')),
    constraint ledger_entry_records_positive check (records > 0)
);
create index ledger_entry_by_time on ledger_entry (site_id, recorded_at, id);

create table ledger_record (
    site_id        uuid        not null,
    id             uuid        not null,
    kind           smallint    not null,
    subject        uuid        not null,
    item           uuid,
    scope          text,
    true_from      timestamptz not null,
    true_until     timestamptz,
    recorded_at    timestamptz not null,
    entry_id       uuid        not null,
    corrects       uuid,
    withdrawn      boolean     not null default false,
    source_id      text,
    body           json        not null, -- kept letter for letter: the hash covers this very text
    private_digest bytea,
    hash           bytea       not null,
    constraint ledger_record_pk primary key (site_id, id),
    constraint ledger_record_entry_fk foreign key (site_id, entry_id) references ledger_entry (site_id, id)
        deferrable initially deferred,
    constraint ledger_record_corrects_fk foreign key (site_id, corrects) references ledger_record (site_id, id),
    constraint ledger_record_until_after_from check (true_until is null or true_until > true_from),
    constraint ledger_record_withdrawal_names_record check (not withdrawn or corrects is not null)
);
-- a record is corrected once: the correction itself is what can be corrected next
create unique index ledger_record_corrects_once on ledger_record (site_id, corrects) where corrects is not null;
create unique index ledger_record_source_once on ledger_record (site_id, kind, source_id) where source_id is not null;
create index ledger_record_by_subject on ledger_record (site_id, subject, kind, true_from desc, id);
create index ledger_record_by_item on ledger_record (site_id, item, kind, true_from desc) where item is not null;
create index ledger_record_by_kind on ledger_record (site_id, kind, true_from desc);
create index ledger_record_by_entry on ledger_record (site_id, entry_id);

-- names and free text, where an erasure can reach them; the record keeps a salted digest
create table ledger_private (
    site_id   uuid  not null,
    record_id uuid  not null,
    salt      bytea not null,
    content   json  not null,
    constraint ledger_private_pk primary key (site_id, record_id),
    constraint ledger_private_record_fk foreign key (site_id, record_id) references ledger_record (site_id, id)
);

create table ledger_seal (
    site_id   uuid        not null,
    position  bigint      not null,
    entry_id  uuid        not null,
    hash      bytea       not null,
    sealed_at timestamptz not null,
    constraint ledger_seal_pk primary key (site_id, position),
    constraint ledger_seal_entry_once unique (site_id, entry_id),
    constraint ledger_seal_entry_fk foreign key (site_id, entry_id) references ledger_entry (site_id, id)
);

-- where the sealer goes on, and the lock that lets only one go on; a cache of the last seal, checked by every verification
create table ledger_head (
    site_id     uuid        not null,
    position    bigint      not null,
    hash        bytea       not null,
    recorded_at timestamptz not null,
    constraint ledger_head_pk primary key (site_id)
);

-- takes part in the order first and reads the clock then, so that the sealer sees every writer whose time it has passed;
-- never earlier than what is sealed already, whatever the machine's clock does
create function ledger_clock(site uuid, out recorded_at timestamptz, out written_at timestamptz)
    language plpgsql volatile as
$$
begin
    perform pg_current_xact_id();
    written_at := clock_timestamp();
    recorded_at := greatest(service_now(),
        (select h.recorded_at + interval '1 microsecond' from ledger_head h where h.site_id = site));
end
$$;

-- a form that is sent twice is recorded once
create table form_once (
    site_id    uuid        not null,
    account_id uuid        not null,
    form       text        not null,
    form_key   text        not null,
    content    bytea       not null,
    result     text        not null,
    made_at    timestamptz not null,
    constraint form_once_pk primary key (site_id, account_id, form, form_key)
);

do
$$
declare t text;
begin
    foreach t in array array['ledger_entry', 'ledger_record', 'ledger_private', 'ledger_seal', 'ledger_head', 'form_once'] loop
        execute format('alter table %I enable row level security', t);
        execute format('alter table %I force row level security', t);
        execute format('create policy %I on %I to "${appRole}" using (site_id = nullif(current_setting(''hoodkeeper.site'', true), '''')::uuid)', t || '_by_site', t);
        execute format('create policy %I on %I for select to "${verifierRole}" using (true)', t || '_verified', t);
        execute format('revoke update, delete, truncate on %I from "${appRole}"', t);
    end loop;
end
$$;
grant update on ledger_head to "${appRole}";
