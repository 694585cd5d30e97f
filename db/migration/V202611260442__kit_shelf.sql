-- Sets that nobody has in hand as the claims stand, and since when: another set for today is looked for with every answer that is
-- no, and was found by going through all sets of the site. Derived from the periods of custody and rebuilt with them.
create table kit_shelf (
    site_id   uuid        not null,
    set_id    uuid        not null,
    label     text        not null,
    free_from timestamptz not null,
    constraint kit_shelf_pk primary key (site_id, set_id),
    constraint kit_shelf_set_fk foreign key (site_id, set_id) references kit_set (site_id, id)
);
create index kit_shelf_by_label on kit_shelf (site_id, label);
alter table kit_shelf enable row level security;
create policy kit_shelf_by_site on kit_shelf to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);

create function kit_shelve(site uuid, one uuid) returns void
    language sql volatile as
$$
    delete from kit_shelf f where f.site_id = site and f.set_id = one;
    insert into kit_shelf (site_id, set_id, label, free_from)
    select s.site_id, s.id, s.label, coalesce(max(upper(c.during)), '-infinity')
    from kit_set s left join kit_custody c on c.site_id = s.site_id and c.set_id = s.id
    where s.site_id = site and s.id = one
    group by s.site_id, s.id, s.label
    having not coalesce(bool_or(upper_inf(c.during)), false)
$$;

-- a set that was just received is on the shelf
create function kit_set_received() returns trigger
    language plpgsql as
$$
begin
    insert into kit_shelf (site_id, set_id, label, free_from) values (new.site_id, new.id, new.label, '-infinity');
    return null;
end
$$;
create trigger kit_set_received after insert on kit_set for each row execute function kit_set_received();

alter table kit_set no force row level security;
alter table kit_custody no force row level security;
insert into kit_shelf (site_id, set_id, label, free_from)
select s.site_id, s.id, s.label, coalesce(max(upper(c.during)), '-infinity')
from kit_set s left join kit_custody c on c.site_id = s.site_id and c.set_id = s.id
group by s.site_id, s.id, s.label
having not coalesce(bool_or(upper_inf(c.during)), false);
alter table kit_set force row level security;
alter table kit_custody force row level security;
alter table kit_shelf force row level security;
