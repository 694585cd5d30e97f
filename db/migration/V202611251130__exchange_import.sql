-- Files on their way in: the job, its rows while they wait to be compared and recorded, and why rows were refused. Rows are
-- gone as soon as they are recorded; what another system claims about when it was told stays beside the record.
create table import_job (
    site_id    uuid        not null,
    id         uuid        not null,
    kind       text        not null,
    aim        text        not null,
    state      text        not null,
    file_name  text,
    rows       bigint      not null default 0,
    checked    bigint      not null default 0,
    refused    bigint      not null default 0,
    already    bigint      not null default 0,
    recorded   bigint      not null default 0,
    unjudged   bigint      not null default 0,
    disputed   bigint      not null default 0,
    started_by uuid        not null,
    started_at timestamptz not null default now(),
    seen_at    timestamptz not null default now(),
    ended_at   timestamptz,
    constraint import_job_pk primary key (site_id, id),
    constraint import_job_aim_known check (aim in ('TRY', 'RECORD')),
    constraint import_job_state_known check (state in ('WAITING', 'READING', 'COMPARING', 'READY', 'RECORDING', 'RECORDED', 'REFUSED', 'BROKEN_OFF'))
);
create index import_job_by_time on import_job (site_id, started_at desc);
comment on column import_job.seen_at is 'The working instance says every ten seconds that it lives; a job long unseen is broken off.';

create table import_row (
    site_id      uuid    not null,
    job_id       uuid    not null,
    row_no       bigint  not null,
    code         text,
    person       text,
    employer     text,
    subject      uuid    not null,
    item         uuid,
    reference    text,
    scope        text,
    true_from    timestamptz,
    true_until   timestamptz,
    source_id    text,
    told_claimed date,
    body         text,
    hidden       text,
    unjudged     boolean not null,
    record_id    uuid    not null,
    second_id    uuid,
    found_id     uuid,
    found        boolean not null default false,
    constraint import_row_pk primary key (site_id, job_id, row_no),
    constraint import_row_job_fk foreign key (site_id, job_id) references import_job (site_id, id)
);
create index import_row_by_source on import_row (site_id, job_id, source_id) where source_id is not null;

create table import_refusal (
    site_id     uuid    not null,
    job_id      uuid    not null,
    place       integer not null,
    row_no      bigint  not null,
    column_name text    not null,
    value       text    not null,
    code        text    not null,
    arguments   text[]  not null,
    constraint import_refusal_pk primary key (site_id, job_id, place),
    constraint import_refusal_job_fk foreign key (site_id, job_id) references import_job (site_id, id)
);

create table import_claim (
    site_id      uuid not null,
    record_id    uuid not null,
    told_claimed date not null,
    constraint import_claim_pk primary key (site_id, record_id),
    constraint import_claim_record_fk foreign key (site_id, record_id) references ledger_record (site_id, id)
);
revoke update, delete on import_claim from "${appRole}";

do
$$
declare t text;
begin
    foreach t in array array['import_job', 'import_row', 'import_refusal', 'import_claim'] loop
        execute format('alter table %I enable row level security', t);
        execute format('alter table %I force row level security', t);
        execute format('create policy %I on %I to "${appRole}" using (site_id = nullif(current_setting(''hoodkeeper.site'', true), '''')::uuid)', t || '_by_site', t);
    end loop;
end
$$;
-- rows on their way hold names and medical lines
-- with one database user for everything, the service itself would lose them
do
$$
begin
    if '${verifierRole}' <> '${appRole}' then
        revoke select on import_row, import_refusal from "${verifierRole}";
    end if;
end
$$;
