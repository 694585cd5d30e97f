-- A kind of record that is new on a large site would go unseen in the statistics until a tenth of all records was added, and the
-- database would count on finding none of it.
alter table ledger_record set (autovacuum_analyze_scale_factor = 0.01);
