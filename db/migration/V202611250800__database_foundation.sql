-- The ground that every other table stands on: two extensions, and what the service's role and the reader's role may do
-- with each table made after this one, so that a later migration only has to say where it grants less.
create extension if not exists btree_gist;
create extension if not exists pgcrypto;

grant usage on schema public to "${appRole}", "${verifierRole}";

alter default privileges in schema public grant select, insert, update, delete on tables to "${appRole}";
alter default privileges in schema public grant usage, select on sequences to "${appRole}";
alter default privileges in schema public grant select on tables to "${verifierRole}";
