package org.hoodkeeper.ledger;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.UUID;
import org.hoodkeeper.facts.Erasure;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Takes records out of the ledger for good, after an entry that says by which rule and never what they said. Their places stay,
 * so that the chain verifies as before. Knows no rule: whether a record may go is decided before.
 */
@Component
public class Eraser {

    private final Ledger ledger;
    private final JdbcTemplate jdbc;

    Eraser(Ledger ledger, JdbcTemplate jdbc) {
        this.ledger = ledger;
        this.jdbc = jdbc;
    }

    /**
     * @param rule code of the rule that ended last
     * @param lastDay the latest of the days through which they had to be kept
     * @param versions every version of the records, all of one kind; a record goes with all its corrections
     * @return the record that tells of it
     * @throws Refused {@code erasure.corrected} when one of them is corrected or taken back in this moment
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public RecordId erase(
            Author author, Kind kind, String rule, LocalDate lastDay, Collection<UUID> versions, Instant at) {
        UUID site = author.site().value();
        UUID[] gone = versions.toArray(UUID[]::new);
        ChainPart.Left left = new ChainPart.Left();
        jdbc.query(
                "select id, hash from ledger_record where site_id = ? and id = any(?) and kind = ? order by id",
                row -> {
                    left.add(row.getObject(1, UUID.class), row.getBytes(2));
                },
                site,
                gone,
                kind.number());
        Erasure erasure = new Erasure(kind, rule, left.count(), lastDay, left.value());
        RecordId told = ledger.append(author, Draft.of(erasure, author.site(), at));
        try {
            jdbc.queryForObject("select ledger_erase(?, ?, ?)", Integer.class, site, told.value(), gone);
        } catch (DataIntegrityViolationException broken) {
            if (Ledger.isOfCorrected(broken)) {
                throw new Refused("erasure.corrected", kind);
            }
            throw broken;
        }
        return told;
    }

    /** The record that tells of the erasure of another; none where that one was never erased. */
    @Transactional(readOnly = true)
    public @Nullable RecordId erasureOf(SiteId site, RecordId record) {
        return jdbc
                .query(
                        "select erased_by from ledger_erased where site_id = ? and record_id = ?",
                        (row, n) -> new RecordId(row.getObject(1, UUID.class)),
                        site.value(),
                        record.value())
                .stream()
                .findFirst()
                .orElse(null);
    }
}
