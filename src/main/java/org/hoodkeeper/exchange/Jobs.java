package org.hoodkeeper.exchange;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Ids;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** The jobs of a site. Each step is told in a transaction of its own, so that others see how far it is. */
@Component
@Transactional(propagation = Propagation.REQUIRES_NEW)
class Jobs {

    private static final String LONG_UNSEEN = "seen_at < now() - interval '1 minute'";
    private static final String RUNNING = "state in ('WAITING', 'READING', 'COMPARING', 'RECORDING')";
    private static final String SELECT =
            "select id, kind, aim, state, file_name, rows, checked, refused, already, recorded,"
                    + " unjudged, disputed, started_by, started_at from import_job where site_id = ?";

    private final JdbcTemplate jdbc;

    Jobs(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    UUID begin(SiteId site, FileKind kind, ImportJob.Aim aim, AccountId by, @Nullable String fileName, long rows) {
        forgetAbandoned(site);
        UUID id = Ids.next();
        jdbc.update(
                "insert into import_job (site_id, id, kind, aim, state, file_name, rows, started_by)"
                        + " values (?, ?, ?, ?, ?, ?, ?, ?)",
                site.value(),
                id,
                kind.name(),
                aim.name(),
                ImportJob.State.WAITING.name(),
                fileName,
                rows,
                by.value());
        return id;
    }

    /** Rows of jobs that died, or that nobody confirmed for a day, hold names: they go. */
    private void forgetAbandoned(SiteId site) {
        markDead(site);
        List<UUID> over = jdbc.queryForList(
                "select j.id from import_job j where j.site_id = ? and (j.state in ('REFUSED', 'BROKEN_OFF', 'RECORDED')"
                        + " or j.state = 'READY' and j.seen_at < now() - interval '1 day')"
                        + " and exists (select 1 from import_row r where r.site_id = j.site_id and r.job_id = j.id)",
                UUID.class,
                site.value());
        for (UUID job : over) {
            clear(site, job);
            jdbc.update(
                    "update import_job set state = 'BROKEN_OFF' where site_id = ? and id = ? and state = 'READY'",
                    site.value(),
                    job);
        }
    }

    private void markDead(SiteId site) {
        jdbc.update(
                "update import_job set state = 'BROKEN_OFF', ended_at = now() where site_id = ? and " + RUNNING
                        + " and " + LONG_UNSEEN,
                site.value());
    }

    /** Takes away the staged rows. */
    void clear(SiteId site, UUID job) {
        jdbc.update("delete from import_row where site_id = ? and job_id = ?", site.value(), job);
    }

    void seen(SiteId site, List<UUID> jobs) {
        jdbc.update(
                "update import_job set seen_at = now() where site_id = ? and id = any(?)",
                site.value(),
                jobs.toArray(UUID[]::new));
    }

    void step(SiteId site, UUID job, ImportJob.State state) {
        jdbc.update(
                "update import_job set state = ?, seen_at = now(), ended_at = case when ? then now() end"
                        + " where site_id = ? and id = ?",
                state.name(),
                state.isOver(),
                site.value(),
                job);
    }

    /** @return whether the job was in that state and has left it by this call alone */
    boolean step(SiteId site, UUID job, ImportJob.State from, ImportJob.State to) {
        return jdbc.update(
                        "update import_job set state = ?, seen_at = now() where site_id = ? and id = ? and state = ?",
                        to.name(),
                        site.value(),
                        job,
                        from.name())
                == 1;
    }

    void progress(SiteId site, UUID job, long checked, long unjudged) {
        jdbc.update(
                "update import_job set checked = ?, unjudged = ?, seen_at = now() where site_id = ? and id = ?",
                checked,
                unjudged,
                site.value(),
                job);
    }

    /** The last row is read: only now is it known how many there are. */
    void readAll(SiteId site, UUID job, long rows, long unjudged) {
        jdbc.update(
                "update import_job set rows = ?, checked = ?, unjudged = ?, seen_at = now() where site_id = ? and id = ?",
                rows,
                rows,
                unjudged,
                site.value(),
                job);
    }

    void compared(SiteId site, UUID job, long refused, long already) {
        jdbc.update(
                "update import_job set refused = ?, already = ?, seen_at = now() where site_id = ? and id = ?",
                refused,
                already,
                site.value(),
                job);
    }

    void refuse(SiteId site, UUID job, List<RowRefusal> refusals) {
        jdbc.update("delete from import_refusal where site_id = ? and job_id = ?", site.value(), job);
        for (int i = 0; i < refusals.size(); i++) {
            RowRefusal one = refusals.get(i);
            jdbc.update(
                    "insert into import_refusal (site_id, job_id, place, row_no, column_name, value, code, arguments)"
                            + " values (?, ?, ?, ?, ?, ?, ?, ?)",
                    site.value(),
                    job,
                    i,
                    one.row(),
                    one.column(),
                    one.value().length() > 200 ? one.value().substring(0, 200) + "…" : one.value(),
                    one.code(),
                    one.arguments().toArray(String[]::new));
        }
    }

    ImportJob get(SiteId site, UUID job) {
        markDead(site);
        return jdbc.query(SELECT + " and id = ?", Jobs::job, site.value(), job).stream()
                .findFirst()
                .orElseThrow(() -> new NotFound("exchange.job.unknown"));
    }

    List<ImportJob> newest(SiteId site, int most) {
        markDead(site);
        return jdbc.query(SELECT + " order by started_at desc, id limit ?", Jobs::job, site.value(), most);
    }

    /** Labels, the first {@link Imports#SHOWN} in their order. */
    List<String> held(SiteId site, UUID job) {
        return jdbc.queryForList(
                "select s.label from import_held h join kit_set s on s.site_id = h.site_id and s.id = h.set_id"
                        + " where h.site_id = ? and h.job_id = ? order by s.label limit " + Imports.SHOWN,
                String.class,
                site.value(),
                job);
    }

    List<RowRefusal> refusals(SiteId site, UUID job) {
        return jdbc.query(
                "select row_no, column_name, value, code, arguments from import_refusal where site_id = ? and job_id = ?"
                        + " order by place",
                (row, n) -> new RowRefusal(
                        row.getLong(1), row.getString(2), row.getString(3), row.getString(4), Arrays.asList((String[])
                                row.getArray(5).getArray())),
                site.value(),
                job);
    }

    private static ImportJob job(ResultSet row, int n) throws SQLException {
        return new ImportJob(
                row.getObject(1, UUID.class),
                FileKind.valueOf(row.getString(2)),
                ImportJob.Aim.valueOf(row.getString(3)),
                ImportJob.State.valueOf(row.getString(4)),
                row.getString(5),
                row.getLong(6),
                row.getLong(7),
                row.getLong(8),
                row.getLong(9),
                row.getLong(10),
                row.getLong(11),
                row.getLong(12),
                new AccountId(row.getObject(13, UUID.class)),
                row.getTimestamp(14).toInstant());
    }
}
