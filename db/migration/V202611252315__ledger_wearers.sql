-- The newest check and the newest wear of each wearer of a set: whether anybody else had it on is asked with each question, and
-- was answered by reading the set's whole history where nobody had.
create index ledger_record_by_checker on ledger_record (site_id, subject, item, true_from desc, recorded_at desc, id desc)
    where kind = 12;
create index ledger_record_by_wearer on ledger_record (site_id, item, subject, true_from desc, recorded_at desc, id desc)
    where kind = 11;
