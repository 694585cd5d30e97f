-- The audit trail is chained like the record, in batches: each seal names its events with their hashes, so that a changed, a
-- removed and an inserted event are found and named. What belongs to no site has a chain of its own.

-- takes part in the order first and reads the clock then, never before what is sealed: the sealer sees every writer in time
create function audit_clock(site uuid) returns timestamptz
    language plpgsql volatile as
$$
begin
    perform pg_current_xact_id();
    return greatest(clock_timestamp(),
        case when site is null then (select h.until from service_audit_head h)
             else (select h.until from audit_head h where h.site_id = site) end);
end
$$;

create table audit_seal (
    site_id   uuid        not null,
    position  bigint      not null,
    until     timestamptz not null,
    events    uuid[]      not null,
    hashes    bytea       not null,
    hash      bytea       not null,
    sealed_at timestamptz not null default clock_timestamp(),
    constraint audit_seal_pk primary key (site_id, position),
    constraint audit_seal_hash_each check (length(hashes) = 32 * cardinality(events))
);

create table audit_head (
    site_id  uuid        not null,
    position bigint      not null,
    until    timestamptz not null,
    hash     bytea       not null,
    constraint audit_head_pk primary key (site_id)
);

create table service_audit_seal (
    position  bigint      not null,
    until     timestamptz not null,
    events    uuid[]      not null,
    hashes    bytea       not null,
    hash      bytea       not null,
    sealed_at timestamptz not null default clock_timestamp(),
    constraint service_audit_seal_pk primary key (position),
    constraint service_audit_seal_hash_each check (length(hashes) = 32 * cardinality(events))
);

create table service_audit_head (
    only_row boolean     not null default true,
    position bigint      not null,
    until    timestamptz not null,
    hash     bytea       not null,
    constraint service_audit_head_pk primary key (only_row),
    constraint service_audit_head_has_one_row check (only_row)
);

do
$$
declare t text;
begin
    foreach t in array array['audit_seal', 'audit_head'] loop
        execute format('alter table %I enable row level security', t);
        execute format('alter table %I force row level security', t);
        execute format('create policy %I on %I to "${appRole}" using (site_id = nullif(current_setting(''hoodkeeper.site'', true), '''')::uuid)', t || '_by_site', t);
        execute format('create policy %I on %I for select to "${verifierRole}" using (true)', t || '_verified', t);
    end loop;
    foreach t in array array['audit_seal', 'audit_head', 'service_audit_seal', 'service_audit_head'] loop
        execute format('revoke update, delete, truncate on %I from "${appRole}"', t);
    end loop;
end
$$;
grant update on audit_head, service_audit_head to "${appRole}";
