-- The only way out of the record: a function in a role of its own, in which nobody signs in. It takes records away after an entry
-- that tells of it, leaves what the chain needs of them, and clears what else was kept of what they said.

-- the service itself can still add and read only
grant usage on schema public to "${eraserRole}";
grant select, delete on ledger_record, ledger_private, form_once, import_row, import_refusal, import_claim, judged_wear
    to "${eraserRole}";
grant select, insert on ledger_erased to "${eraserRole}";
grant select on ledger_entry to "${eraserRole}";
grant select, update (records) on stored_answer, issued_file to "${eraserRole}";
grant select, update (file_name, state) on import_job to "${eraserRole}";

do
$$
declare t text;
begin
    foreach t in array array['ledger_record', 'ledger_private', 'ledger_erased', 'ledger_entry', 'form_once', 'import_job',
        'import_row', 'import_refusal', 'import_claim', 'judged_wear', 'stored_answer', 'issued_file'] loop
        execute format('create policy %I on %I to "${eraserRole}" using (site_id = nullif(current_setting(''hoodkeeper.site'', true), '''')::uuid)', t || '_erasing', t);
    end loop;
end
$$;

-- row reports, rows that wait for a yes, and file names go whatever they say: which record a refused row meant
-- nobody knows. A form that was sent is known by its result, or by who told the record and when.
create function ledger_erase(site uuid, erasure uuid, gone uuid[]) returns integer
    language plpgsql volatile security definer set search_path = pg_catalog, public, pg_temp as
$$
declare
    promised integer;
    erased   integer;
begin
    if site is distinct from nullif(current_setting('hoodkeeper.site', true), '')::uuid then
        raise exception 'another site is bound' using errcode = 'insufficient_privilege';
    end if;
    select (r.body ->> 'records')::integer into promised from ledger_record r
        where r.site_id = site and r.id = erasure and r.kind = 30;
    if promised is null or exists (select 1 from ledger_erased x where x.site_id = site and x.erased_by = erasure) then
        raise exception 'no entry tells of this erasure' using errcode = 'insufficient_privilege';
    end if;

    insert into ledger_erased (site_id, record_id, entry_id, hash, erased_by)
        select r.site_id, r.id, r.entry_id, r.hash, erasure from ledger_record r
        where r.site_id = site and r.id = any(gone) and r.kind <> 30;
    get diagnostics erased = row_count;
    if erased <> promised or erased <> cardinality(gone) then
        raise exception 'the entry tells of % records, % are there', promised, erased using errcode = 'check_violation';
    end if;

    delete from form_once f using ledger_entry e, ledger_record r
        where f.site_id = site and r.site_id = site and r.id = any(gone) and e.site_id = site and e.id = r.entry_id
          and (position(r.id::text in f.result) > 0
               or (f.account_id = e.account_id
                   and f.made_at between e.recorded_at - interval '1 minute' and e.recorded_at + interval '5 minutes'));
    delete from import_claim c where c.site_id = site and c.record_id = any(gone);
    perform 1 from import_job j
        where j.site_id = site and j.state in ('READY', 'RECORDED', 'REFUSED', 'BROKEN_OFF') for update;
    delete from import_row w using import_job j
        where w.site_id = site and j.site_id = site and j.id = w.job_id
          and j.state in ('READY', 'RECORDED', 'REFUSED', 'BROKEN_OFF');
    delete from import_refusal w using import_job j
        where w.site_id = site and j.site_id = site and j.id = w.job_id
          and j.state in ('READY', 'RECORDED', 'REFUSED', 'BROKEN_OFF');
    update import_job j set file_name = null, state = case when j.state = 'READY' then 'BROKEN_OFF' else j.state end
        where j.site_id = site and j.state in ('READY', 'RECORDED', 'REFUSED', 'BROKEN_OFF');
    delete from judged_wear w
        where w.site_id = site and (w.wear_id = any(gone) or w.exit_id = any(gone) or w.root_id = any(gone));
    update stored_answer a set records = array(select one from unnest(a.records) one where one <> all(gone))
        where a.site_id = site and a.records && gone;
    update issued_file f set records = array(select one from unnest(f.records) one where one <> all(gone))
        where f.site_id = site and f.records && gone;

    delete from ledger_private p where p.site_id = site and p.record_id = any(gone);
    delete from ledger_record r where r.site_id = site and r.id = any(gone);
    return erased;
end
$$;
revoke all on function ledger_erase(uuid, uuid, uuid[]) from public;
grant execute on function ledger_erase(uuid, uuid, uuid[]) to "${appRole}";

-- with one database user for everything there is nobody to hand it over to
do
$$
begin
    if '${eraserRole}' <> current_user then
        grant create on schema public to "${eraserRole}";
        alter function ledger_erase(uuid, uuid, uuid[]) owner to "${eraserRole}";
        revoke create on schema public from "${eraserRole}";
    end if;
end
$$;
