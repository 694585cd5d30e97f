-- A site is the unit of everything: its id leads every key, and its zone decides when a day ends.
create table site (
    site_id        uuid        not null,
    code           text        not null,
    name           text        not null,
    zone           text        not null,
    first_rule_set text        not null,
    made_at        timestamptz not null default now(),
    constraint site_pk primary key (site_id),
    constraint site_code_once unique (code),
    constraint site_code_form check (code ~ '^[a-z0-9-]{2,20}$'),
    constraint site_name_length check (length(btrim(name)) between 1 and 120),
    constraint site_first_rule_set_form check (first_rule_set ~ '^[a-z0-9-]{2,40}$')
);

comment on column site.first_rule_set is
    'The rule set chosen when the site was opened; what is in force later is a dated site decision.';

revoke update, delete on site from "${appRole}";
