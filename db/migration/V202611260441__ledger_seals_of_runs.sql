-- A seal closes a run of entries, not each of them: the chain of hashes goes on from entry to entry as before, and every seal that
-- stands becomes a run of one. Writing a row and two index lines for each entry was what most of the chain cost its writers.

alter table ledger_seal no force row level security;
alter table ledger_entry no force row level security;

alter table ledger_seal
    add column entries        uuid[],
    add column marks          bytea,
    add column recorded_from  timestamptz,
    add column recorded_until timestamptz;

update ledger_seal s
set entries = array[s.entry_id], marks = substring(e.hash for 8), recorded_from = e.recorded_at, recorded_until = e.recorded_at
from ledger_entry e
where e.site_id = s.site_id and e.id = s.entry_id;

-- position: of the run's last entry; entries: in the order of the chain; marks: the first 8 bytes of each entry's hash, which say
-- which entry of a run was changed; hash: after the last entry
alter table ledger_seal
    drop column entry_id,
    alter column entries set not null,
    alter column marks set not null,
    alter column recorded_from set not null,
    alter column recorded_until set not null,
    add constraint ledger_seal_marks_of_entries check (octet_length(marks) = 8 * cardinality(entries) and cardinality(entries) > 0);

create index ledger_seal_by_time on ledger_seal (site_id, recorded_until);

alter table ledger_seal force row level security;
alter table ledger_entry force row level security;

-- Where an entry is in its site's chain; none when it is not sealed yet. Runs follow each other in time, so that an entry is in the
-- first run that ends after it, or in one that ends at its very time.
create function ledger_position(site uuid, entry uuid) returns bigint
    language sql stable as
$$
    select s.position - cardinality(s.entries) + array_position(s.entries, e.id)
    from ledger_entry e
    join ledger_seal s on s.site_id = e.site_id and s.recorded_until between e.recorded_at and coalesce(
            (select min(n.recorded_until) from ledger_seal n where n.site_id = e.site_id and n.recorded_until > e.recorded_at),
            e.recorded_at)
        and e.id = any (s.entries)
    where e.site_id = site and e.id = entry
$$;
