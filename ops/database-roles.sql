-- Creates Hoodkeeper's four roles on a PostgreSQL 15 or newer of your own, so that the service can neither change what
-- its ledger holds nor read past the site that it works for. Safe to repeat: sets the passwords anew, touches no data.
--
-- As a superuser, connected to the service's own database (create it first: create database hoodkeeper):
--   psql -v ON_ERROR_STOP=1 -d hoodkeeper \
--        -v owner_password=… -v app_password=… -v verifier_password=… -f ops/database-roles.sql
-- Then start the service with SPRING_DATASOURCE_URL, SPRING_DATASOURCE_USERNAME=hoodkeeper_app,
-- SPRING_DATASOURCE_PASSWORD, SPRING_FLYWAY_USER=hoodkeeper_owner and SPRING_FLYWAY_PASSWORD.
select set_config('hoodkeeper_setup.hoodkeeper_owner', :'owner_password', false) is null,
       set_config('hoodkeeper_setup.hoodkeeper_app', :'app_password', false) is null,
       set_config('hoodkeeper_setup.hoodkeeper_verifier', :'verifier_password', false) is null;

do $$
declare
    role_name text;
begin
    foreach role_name in array array ['hoodkeeper_owner', 'hoodkeeper_app', 'hoodkeeper_verifier'] loop
        if not exists (select from pg_roles where rolname = role_name) then
            execute format('create role %I', role_name);
        end if;
        if exists (select from pg_roles where rolname = role_name and (rolsuper or rolbypassrls)) then
            raise exception 'role % must be neither superuser nor bypassrls', role_name;
        end if;
        execute format('alter role %I login password %L', role_name,
                       current_setting('hoodkeeper_setup.' || role_name));
    end loop;
    -- erasing is a function's alone: nobody signs in with this role, and the owner only hands the function over to it
    if not exists (select from pg_roles where rolname = 'hoodkeeper_eraser') then
        create role hoodkeeper_eraser;
    end if;
    if exists (select from pg_roles where rolname = 'hoodkeeper_eraser' and (rolsuper or rolbypassrls)) then
        raise exception 'role hoodkeeper_eraser must be neither superuser nor bypassrls';
    end if;
    alter role hoodkeeper_eraser nologin;
    grant hoodkeeper_eraser to hoodkeeper_owner;
    execute format('alter database %I owner to hoodkeeper_owner', current_database());
    execute format('revoke all on database %I from public', current_database());
    execute format('grant connect, temporary on database %I to hoodkeeper_app', current_database());
    execute format('grant connect on database %I to hoodkeeper_verifier', current_database());
end
$$;

select set_config('hoodkeeper_setup.hoodkeeper_owner', '', false),
       set_config('hoodkeeper_setup.hoodkeeper_app', '', false),
       set_config('hoodkeeper_setup.hoodkeeper_verifier', '', false);
