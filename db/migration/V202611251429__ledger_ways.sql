-- A set is cleaned every week of its life, a person seen every day: the newest record of each way is found without reading all.
-- A column, since row security lets no condition on an expression into an index; generated, so that it follows from the hashed body.
alter table ledger_record add column way uuid generated always as (
    case kind
        when 10 then md5(body ->> 'seen')::uuid
        when 14 then md5(coalesce(body ->> 'method', '') || '|' || coalesce(body ->> 'product', '') || '|'
            || coalesce(body ->> 'strength', '') || '|' || coalesce(body ->> 'strengthBasis', '') || '|'
            || coalesce(body ->> 'wetSeconds', ''))::uuid
    end) stored;
create index ledger_record_by_way on ledger_record (site_id, subject, kind, way, true_from desc) where way is not null;
