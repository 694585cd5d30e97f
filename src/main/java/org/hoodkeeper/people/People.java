package org.hoodkeeper.people;

import java.util.List;
import java.util.regex.Pattern;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Ids;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** The people of a site. */
@Service
@Transactional(readOnly = true)
public class People {

    private static final Pattern NUMBER = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,29}");

    private final Workers workers;
    private final JdbcTemplate jdbc;

    People(Workers workers, JdbcTemplate jdbc) {
        this.workers = workers;
        this.jdbc = jdbc;
    }

    /**
     * Takes the worker for oneself until the transaction ends: whoever decides on or takes away a verdict takes the set first,
     * then the worker, the ledger last.
     *
     * @throws NotFound {@code worker.unknown}
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public void lock(SiteId site, WorkerId worker) {
        if (jdbc.queryForList(
                        "select 1 from worker where site_id = ? and id = ? for update",
                        Integer.class,
                        site.value(),
                        worker.value())
                .isEmpty()) {
            throw new NotFound("worker.unknown", worker);
        }
    }

    /**
     * Takes a person on the site's list.
     *
     * @param number 1 to 30 letters, digits, dots, hyphens or underscores; unique on the site
     * @param name 1 to 120 characters
     * @throws Refused {@code worker.number.form}, {@code worker.number.taken}, {@code worker.name.length}
     */
    @Transactional
    public WorkerId register(SiteId site, String number, String name, @Nullable String employer) {
        if (!NUMBER.matcher(number).matches()) {
            throw new Refused("worker.number.form", number);
        }
        if (name.isBlank() || name.length() > 120) {
            throw new Refused("worker.name.length", name.length());
        }
        if (workers.findByKeySiteIdAndNumber(site.value(), number).isPresent()) {
            throw new Refused("worker.number.taken", number);
        }
        try {
            return workers.saveAndFlush(new Worker(site, Ids.next(), number, name.strip(), employer))
                    .id();
        } catch (DataIntegrityViolationException sameMoment) {
            throw new Refused("worker.number.taken", number);
        }
    }

    /** @throws NotFound {@code worker.unknown} */
    public Worker byNumber(SiteId site, String number) {
        return workers.findByKeySiteIdAndNumber(site.value(), number)
                .orElseThrow(() -> new NotFound("worker.unknown", number));
    }

    /** @throws NotFound {@code worker.unknown} */
    public Worker get(SiteId site, WorkerId id) {
        return workers.findByKeySiteIdAndKeyId(site.value(), id.value())
                .orElseThrow(() -> new NotFound("worker.unknown", id));
    }

    /** Everyone, by number. */
    public List<Worker> all(SiteId site) {
        return workers.findByKeySiteIdOrderByNumber(site.value());
    }

    /** A person to be entered, with an id made beforehand. */
    public record Listed(
            WorkerId id,
            String number,
            String name,
            @Nullable String employer) {}

    /**
     * Enters people from a file, whose numbers and names were looked at. Safe to repeat with the same ids.
     *
     * @throws org.springframework.dao.DuplicateKeyException when somebody else has entered one of the numbers meanwhile
     */
    @Transactional
    public void enlist(SiteId site, List<Listed> people) {
        jdbc.batchUpdate(
                "insert into worker (site_id, id, number, name, employer) values (?, ?, ?, ?, ?)"
                        + " on conflict on constraint worker_pk do nothing",
                people.stream()
                        .map(one ->
                                new Object[] {site.value(), one.id().value(), one.number(), one.name(), one.employer()})
                        .toList());
    }

    /** As {@link #lock}, for many in the order of their ids. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void lock(SiteId site, List<WorkerId> some) {
        jdbc.query(
                "select 1 from worker where site_id = ? and id = any(?) order by id for update",
                row -> {},
                site.value(),
                some.stream().map(WorkerId::value).toArray(java.util.UUID[]::new));
    }
}
