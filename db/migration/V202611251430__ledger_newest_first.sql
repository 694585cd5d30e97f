-- The newest record of a kind is the first one in the index: without time of telling and id in it, all of them were read and sorted.
drop index ledger_record_by_subject;
create index ledger_record_by_subject on ledger_record (site_id, subject, kind, true_from desc, recorded_at desc, id desc);
drop index ledger_record_by_item;
create index ledger_record_by_item on ledger_record (site_id, item, kind, true_from desc, recorded_at desc, id desc)
    where item is not null;
