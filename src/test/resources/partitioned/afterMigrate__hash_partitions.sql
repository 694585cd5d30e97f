-- Makes every table of the sites a table partitioned by hash of the site, with the same columns, keys, indexes, policies, grants and
-- triggers: what no key or query may stand in the way of. For tests only; tables are empty when it runs.
do
$$
declare
    t record;
    d record;
    parts constant int := 4;
begin
    if not exists (select 1 from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attname = 'site_id'
                   where c.relkind = 'r' and not c.relispartition and c.relname = 'ledger_record') then
        return;
    end if;
    create temporary table made_again (step int, tab text, what text);
    for t in select c.oid, c.relname, c.relrowsecurity, c.relforcerowsecurity, c.relacl from pg_class c
             join pg_attribute a on a.attrelid = c.oid and a.attname = 'site_id' and not a.attisdropped
             where c.relkind = 'r' and not c.relispartition and c.relnamespace = 'public'::regnamespace
               -- the list of sites itself: a code is unique among all of them
               and c.relname <> 'site' loop
        -- keys first, foreign keys last
        insert into made_again
            select case n.contype when 'f' then 5 else 2 end, t.relname,
                   format('alter table %I add constraint %I %s', t.relname, n.conname, pg_get_constraintdef(n.oid))
            from pg_constraint n where n.conrelid = t.oid and n.contype in ('p', 'u', 'x', 'f');
        insert into made_again
            select 3, t.relname, pg_get_indexdef(i.indexrelid) from pg_index i
            where i.indrelid = t.oid and not exists (select 1 from pg_constraint n where n.conindid = i.indexrelid and n.conrelid = t.oid);
        insert into made_again
            select 4, t.relname, pg_get_triggerdef(g.oid) from pg_trigger g where g.tgrelid = t.oid and not g.tgisinternal;
        insert into made_again
            select 4, t.relname, format('create policy %I on %I as %s for %s to %s%s%s', p.policyname, t.relname, p.permissive, p.cmd,
                   (select string_agg(case r when 'public' then r else quote_ident(r) end, ', ') from unnest(p.roles) r),
                   ' using (' || p.qual || ')', ' with check (' || p.with_check || ')')
            from pg_policies p where p.schemaname = 'public' and p.tablename = t.relname;
        if t.relrowsecurity then
            insert into made_again values (4, t.relname, format('alter table %I enable row level security', t.relname));
        end if;
        if t.relforcerowsecurity then
            insert into made_again values (4, t.relname, format('alter table %I force row level security', t.relname));
        end if;
        insert into made_again
            select 4, t.relname, format('revoke all on %I from %I', t.relname, r.rolname) from pg_roles r
            where r.rolname in ('hoodkeeper_app', 'hoodkeeper_verifier', 'hoodkeeper_eraser');
        insert into made_again
            select 6, t.relname, format('grant %s on %I to %I', x.privilege_type, t.relname, r.rolname)
            from aclexplode(t.relacl) x join pg_roles r on r.oid = x.grantee
            where r.rolname in ('hoodkeeper_app', 'hoodkeeper_verifier', 'hoodkeeper_eraser');
        insert into made_again
            select 6, t.relname, format('grant %s (%I) on %I to %I', x.privilege_type, a.attname, t.relname, r.rolname)
            from pg_attribute a cross join aclexplode(a.attacl) x join pg_roles r on r.oid = x.grantee
            where a.attrelid = t.oid and a.attacl is not null;
        insert into made_again values (1, t.relname, t.relname);
    end loop;
    for d in select n.conrelid::regclass as tab, n.conname from pg_constraint n join made_again m on m.step = 1
             and n.conrelid = m.tab::regclass where n.contype = 'f' loop
        execute format('alter table %s drop constraint %I', d.tab, d.conname);
    end loop;
    for d in select tab from made_again where step = 1 loop
        execute format('create table made_of_%s (like %I including defaults including constraints including generated'
            ' including identity including storage including comments) partition by hash (site_id)', d.tab, d.tab);
        execute format('drop table %I', d.tab);
        execute format('alter table made_of_%s rename to %I', d.tab, d.tab);
        for part in 0 .. parts - 1 loop
            execute format('create table %I partition of %I for values with (modulus %s, remainder %s)',
                d.tab || '_' || part, d.tab, parts, part);
        end loop;
    end loop;
    for d in select what from made_again where step > 1 order by step loop
        execute d.what;
    end loop;
    -- a refusal is known by the name of the key that it hit: each part's key begins with the name of the whole's
    for d in select i.inhrelid::regclass as part, p.relname as whole, row_number() over (partition by p.oid order by i.inhrelid) as n
             from pg_inherits i join pg_class p on p.oid = i.inhparent and p.relkind = 'I' loop
        execute format('alter index %s rename to %I', d.part, d.whole || '_' || d.n);
    end loop;
    drop table made_again;
end
$$;
