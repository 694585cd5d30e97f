-- When the record was checked, by whom, and what was found: added to, never changed. A check without a result still runs, or its
-- instance stopped.

create table chain_check (
    site_id    uuid        not null,
    id         uuid        not null,
    started_at timestamptz not null,
    account_id uuid        not null,
    constraint chain_check_pk primary key (site_id, id)
);
create index chain_check_by_time on chain_check (site_id, started_at);

create table chain_check_result (
    site_id       uuid        not null,
    check_id      uuid        not null,
    finished_at   timestamptz not null,
    entries       bigint      not null,
    unsealed      bigint      not null,
    position      bigint      not null,
    head          text        not null,
    events        bigint      not null,
    seal          bigint      not null,
    seal_head     text        not null,
    service_seal  bigint      not null,
    service_head  text        not null,
    broken_count  bigint      not null,
    broken        text[]      not null, -- the first of them: chain, position, code and id
    constraint chain_check_result_pk primary key (site_id, check_id),
    constraint chain_check_result_fk foreign key (site_id, check_id) references chain_check (site_id, id)
);

do
$$
declare t text;
begin
    foreach t in array array['chain_check', 'chain_check_result'] loop
        execute format('alter table %I enable row level security', t);
        execute format('alter table %I force row level security', t);
        execute format('create policy %I on %I to "${appRole}" using (site_id = nullif(current_setting(''hoodkeeper.site'', true), '''')::uuid)', t || '_by_site', t);
        execute format('create policy %I on %I for select to "${verifierRole}" using (true)', t || '_verified', t);
        execute format('revoke update, delete, truncate on %I from "${appRole}"', t);
    end loop;
end
$$;
