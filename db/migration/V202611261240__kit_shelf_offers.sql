-- What a set on the shelf may be: its model and size, alone and with its store, for each version of its data ever told. Who looks for
-- another set went through the records of one set of the shelf after the other, and took 5 ms over it.
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
    update kit_shelf s set offers = o.offers
    from (select kit_offers(new.site_id, new.subject) as offers) o
    where s.site_id = new.site_id and s.set_id = new.subject and s.offers is distinct from o.offers;
    return null;
end
$$;
create constraint trigger ledger_set_told after insert on ledger_record deferrable initially deferred
    for each row when (new.kind = 26) execute function ledger_set_told();

alter table kit_shelf no force row level security;
alter table ledger_record no force row level security;
update kit_shelf set offers = kit_offers(site_id, set_id);
alter table ledger_record force row level security;
alter table kit_shelf force row level security;
