-- Who may sign in and with which roles on which site. Accounts reach over sites; each role belongs to one.
create table account (
    account_id  uuid        not null,
    login       text        not null,
    name        text        not null,
    password    text,
    made_at     timestamptz not null default now(),
    disabled_at timestamptz,
    constraint account_pk primary key (account_id),
    constraint account_login_once unique (login),
    constraint account_login_form check (login ~ '^[a-z0-9][a-z0-9._@-]{1,63}$'),
    constraint account_name_length check (length(btrim(name)) between 1 and 120)
);

comment on column account.password is 'Encoded, with its method in front; none until the person has chosen one.';

-- The worker's own table comes later and adds its foreign key (site_id, worker_id) there.
create table account_role (
    site_id    uuid        not null,
    account_id uuid        not null,
    role       text        not null,
    worker_id  uuid,
    employer   text,
    granted_by uuid,
    granted_at timestamptz not null default now(),
    constraint account_role_pk primary key (site_id, account_id, role),
    constraint account_role_site foreign key (site_id) references site (site_id),
    constraint account_role_account foreign key (account_id) references account (account_id),
    constraint account_role_known check (role in ('WORKER', 'SUPERVISOR', 'STOREKEEPER', 'OFFICER', 'HEALTH', 'TRAINER',
        'HYGIENIST', 'EMPLOYER', 'ADMINISTRATOR')),
    constraint account_role_worker check ((role = 'WORKER') = (worker_id is not null)),
    constraint account_role_employer check ((role = 'EMPLOYER') = (employer is not null)),
    constraint account_role_one_account_per_worker unique (site_id, worker_id)
);

-- Nobody opens the medical wall alone: what reaches behind it waits here for a second person.
create table role_request (
    site_id      uuid        not null,
    request_id   uuid        not null,
    account_id   uuid        not null,
    asks         text        not null,
    asked_by     uuid        not null,
    asked_at     timestamptz not null default now(),
    confirmed_by uuid,
    confirmed_at timestamptz,
    declined_by  uuid,
    declined_at  timestamptz,
    constraint role_request_pk primary key (site_id, request_id),
    constraint role_request_site foreign key (site_id) references site (site_id),
    constraint role_request_account foreign key (account_id) references account (account_id),
    constraint role_request_asked_by foreign key (asked_by) references account (account_id),
    constraint role_request_confirmed_by foreign key (confirmed_by) references account (account_id),
    constraint role_request_asks_known check (asks in ('HEALTH_ROLE', 'PASSWORD_LINK')),
    constraint role_request_two_people check (confirmed_by <> asked_by and confirmed_by <> account_id),
    constraint role_request_one_end check (confirmed_by is null or declined_by is null),
    constraint role_request_confirmed check ((confirmed_by is null) = (confirmed_at is null)),
    constraint role_request_declined check ((declined_by is null) = (declined_at is null))
);

create unique index role_request_open_once on role_request (site_id, account_id, asks)
    where confirmed_at is null and declined_at is null;

-- Tokens for commands: the secret is shown once and only its hash is kept.
create table account_token (
    site_id      uuid        not null,
    token_id     uuid        not null,
    account_id   uuid        not null,
    name         text        not null,
    roles        text[]      not null,
    secret_hash  bytea       not null,
    made_at      timestamptz not null default now(),
    last_used_at timestamptz,
    revoked_at   timestamptz,
    constraint account_token_pk primary key (site_id, token_id),
    constraint account_token_site foreign key (site_id) references site (site_id),
    constraint account_token_account foreign key (account_id) references account (account_id),
    constraint account_token_secret_once unique (site_id, secret_hash),
    constraint account_token_name_length check (length(btrim(name)) between 1 and 80),
    constraint account_token_some_role check (cardinality(roles) > 0)
);

-- A link that works once and for a short while: the first administrator, or a password to be chosen.
create table one_time_link (
    secret_hash bytea       not null,
    purpose     text        not null,
    account_id  uuid,
    made_at     timestamptz not null default now(),
    expires_at  timestamptz not null,
    used_at     timestamptz,
    constraint one_time_link_pk primary key (secret_hash),
    constraint one_time_link_account foreign key (account_id) references account (account_id),
    constraint one_time_link_purpose_known check (purpose in ('FIRST_ADMINISTRATOR', 'CHOOSE_PASSWORD')),
    constraint one_time_link_for_whom check ((purpose = 'CHOOSE_PASSWORD') = (account_id is not null))
);

-- Failed sign-ins in a row, by what is being guessed at; the pause grows with them and always ends.
create table sign_in_pause (
    subject        text        not null,
    failures       integer     not null,
    last_failed_at timestamptz not null,
    constraint sign_in_pause_pk primary key (subject),
    constraint sign_in_pause_failures_counted check (failures > 0)
);

-- Where an account has signed in from before: such a place is not held up by guesses made elsewhere.
create table sign_in_place (
    account_id uuid        not null,
    place_hash bytea       not null,
    last_at    timestamptz not null,
    constraint sign_in_place_pk primary key (account_id, place_hash),
    constraint sign_in_place_account foreign key (account_id) references account (account_id)
);

revoke delete on account, role_request, account_token from "${appRole}";

-- where one database user does everything, this would shut out the service itself
do $$
begin
    if '${verifierRole}' <> '${appRole}' then
        revoke select on account, account_token, one_time_link, sign_in_pause, sign_in_place from "${verifierRole}";
    end if;
end
$$;
