-- What is left of an erased record: its place in its entry, so that the chain still verifies, and the record that tells of its
-- erasure. And the records of an entry in the order in which its digest runs over them, so that a check need not sort.
create table ledger_erased (
    site_id   uuid  not null,
    record_id uuid  not null,
    entry_id  uuid  not null,
    hash      bytea not null,
    erased_by uuid  not null,
    constraint ledger_erased_pk primary key (site_id, record_id),
    constraint ledger_erased_entry_fk foreign key (site_id, entry_id) references ledger_entry (site_id, id),
    constraint ledger_erased_by_fk foreign key (site_id, erased_by) references ledger_record (site_id, id)
);
create index ledger_erased_by_entry on ledger_erased (site_id, entry_id, record_id);
create index ledger_erased_by_erasure on ledger_erased (site_id, erased_by, record_id);

alter table ledger_erased enable row level security;
alter table ledger_erased force row level security;
create policy ledger_erased_by_site on ledger_erased to "${appRole}"
    using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);
create policy ledger_erased_verified on ledger_erased for select to "${verifierRole}" using (true);
revoke insert, update, delete, truncate on ledger_erased from "${appRole}";

create index ledger_record_in_entry on ledger_record (site_id, entry_id, id);
drop index ledger_record_by_entry;
