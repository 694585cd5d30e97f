-- Each event of the trail is shown with its place in the chain: the first seal whose time lies behind it.
create index audit_seal_by_until on audit_seal (site_id, until);
create index service_audit_seal_by_until on service_audit_seal (until);
-- what concerns one person or thing, newest first
create index audit_event_by_subject on audit_event (site_id, subject, recorded_at) where subject is not null;
create index service_audit_event_by_actor on service_audit_event (actor, recorded_at) where actor is not null;
