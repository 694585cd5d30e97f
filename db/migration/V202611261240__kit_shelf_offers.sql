-- What a set on the shelf may be: its model and size, alone and with its store, for each version of its data ever told. Who looks for
-- another set went through the records of one set of the shelf after the other, and took 5 ms over it. A set on hold offers nothing:
-- the disposed ones of years would be in front of those that are ready.
alter table kit_shelf add column offers text[] not null default '{}';

-- never a set for emergencies: it is nobody's way to work
create function kit_offers(site uuid, one uuid) returns text[]
    language sql stable as
$$
    select coalesce(array_agg(distinct o.offer), '{}')
    from ledger_record r
    cross join lateral (values
        ((r.body ->> 'model') || '/' || (r.body ->> 'size')),
        ((r.body ->> 'model') || '/' || (r.body ->> 'size') || '/' || coalesce(r.body ->> 'store', ''))) o(offer)
    where r.site_id = site and r.subject = one and r.kind = 26 and not r.withdrawn
      and (r.body ->> 'emergency') is distinct from 'true'
      -- a hold that lies ahead bars nobody yet
      and not exists (
          select 1 from ledger_record h
          where h.site_id = site and h.subject = one and h.kind = 8 and h.body ->> 'step' = 'PLACED' and not h.withdrawn
            and h.true_from <= h.recorded_at and h.true_until is null
            and not exists (select 1 from ledger_record c where c.site_id = site and c.corrects = h.id)
            and not exists (
                select 1 from ledger_record e
                where e.site_id = site and e.item = h.id and e.kind = 8 and e.body ->> 'step' = 'RELEASED' and not e.withdrawn
                  and not exists (select 1 from ledger_record c where c.site_id = site and c.corrects = e.id)))
$$;

create or replace function kit_shelve(site uuid, one uuid) returns void
    language sql volatile as
$$
    delete from kit_shelf f where f.site_id = site and f.set_id = one;
    insert into kit_shelf (site_id, set_id, label, free_from, offers)
    select s.site_id, s.id, s.label, coalesce(max(upper(c.during)), '-infinity'), kit_offers(s.site_id, s.id)
    from kit_set s left join kit_custody c on c.site_id = s.site_id and c.set_id = s.id
    where s.site_id = site and s.id = one
    group by s.site_id, s.id, s.label
    having not coalesce(bool_or(upper_inf(c.during)), false)
$$;

-- With the commit: by then whoever brings in a file holds its sets, as who issues or takes back does, so that nobody waits for the
-- other's shelf while holding the other's set. A set in hand has no place here, and is given its own when it comes back.
create function ledger_set_told() returns trigger
    language plpgsql as
$$
begin
    -- a correction may have turned from another set to this one
    update kit_shelf s set offers = kit_offers(s.site_id, s.set_id)
    where s.site_id = new.site_id
      and s.set_id in (new.subject, (select o.subject from ledger_record o where o.site_id = new.site_id and o.id = new.corrects))
      and s.offers is distinct from kit_offers(s.site_id, s.set_id);
    return null;
end
$$;
create constraint trigger ledger_set_told after insert on ledger_record deferrable initially deferred
    for each row when (new.kind in (8, 26)) execute function ledger_set_told();

alter table kit_shelf no force row level security;
alter table ledger_record no force row level security;
update kit_shelf set offers = kit_offers(site_id, set_id);
alter table ledger_record force row level security;
alter table kit_shelf force row level security;
