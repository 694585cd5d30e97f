-- The steps of one batch of the wash are found by the batch: with each question about a set the last wash that it went into is asked for.
create index ledger_record_by_batch on ledger_record (site_id, scope, true_from desc, recorded_at desc, id desc)
    where kind = 63;
