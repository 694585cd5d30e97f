-- The tasks of a site, and the rule-set files as they were loaded: another content under a known version stops the start.
create table task (
    site_id uuid not null,
    id      uuid not null,
    code    text not null,
    constraint task_pk primary key (site_id, id),
    constraint task_code_once unique (site_id, code),
    constraint task_code_length check (length(code) between 1 and 40)
);
alter table task enable row level security;
alter table task force row level security;
create policy task_by_site on task to "${appRole}" using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);

create table rule_set (
    code      text        not null,
    version   text        not null,
    hash      text        not null,
    content   text        not null,
    loaded_at timestamptz not null,
    constraint rule_set_pk primary key (code, version)
);
revoke update, delete, truncate on rule_set from "${appRole}";
