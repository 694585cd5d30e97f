-- Whoever signs in as a worker is one on the site's list: a role for nobody would show an empty page, and later a stranger's.
alter table account_role add constraint account_role_worker_fk foreign key (site_id, worker_id) references worker (site_id, id);
