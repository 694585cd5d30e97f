package org.hoodkeeper.ledger;

import java.sql.SQLException;
import java.util.Arrays;
import java.util.List;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Viewer;
import org.springframework.dao.ConcurrencyFailureException;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Records a form once, however often it is sent: the key that the server gave it is kept with its content in the same
 * transaction. A refused form leaves its key unused. What the database gave up because of others is tried again whole.
 */
@Component
public class OnceOnly {

    private static final int TRIES = 4;

    /** PostgreSQL, appendix A: unique_violation. */
    private static final String UNIQUE_VIOLATION = "23505";

    private static final Pattern KEY = Pattern.compile("\\p{Graph}{1,64}");

    private final JdbcTemplate jdbc;
    private final TransactionTemplate transaction;

    OnceOnly(JdbcTemplate jdbc, PlatformTransactionManager transactions) {
        this.jdbc = jdbc;
        this.transaction = new TransactionTemplate(transactions);
    }

    /** @param again the form had been recorded before; {@code value} is what it gave then */
    public record Done(String value, boolean again) {}

    /**
     * Call it outside of a transaction.
     *
     * @param form the form's name
     * @param key the key rendered in the form
     * @param content everything that was typed, in a fixed order
     * @param work records it and returns what a later call shall see, for instance the record's id
     * @throws Refused {@code form.key} when the key is missing or none that the service gave, {@code form.changed} when this key was used for other content:
     *     nothing is saved, the first argument is what had been recorded
     */
    public Done once(Viewer viewer, String form, String key, List<?> content, Supplier<String> work) {
        if (!KEY.matcher(key).matches()) {
            throw new Refused("form.key");
        }
        Digest digest = new Digest("form 1").field("form", form);
        content.forEach(value -> digest.field("value", String.valueOf(value)));
        byte[] typed = digest.value();
        for (int tries = 1; ; tries++) {
            try {
                Done done = transaction.execute(status -> attempt(viewer, form, key, typed, work));
                if (done == null) {
                    throw new IllegalStateException("an attempt always ends in something done");
                }
                return done;
            } catch (ConcurrencyFailureException others) {
                if (tries == TRIES) {
                    throw others;
                }
            } catch (DataIntegrityViolationException taken) {
                // a name that somebody else entered at the same moment: the next try finds it there and says so
                if (tries == TRIES || !isTaken(taken)) {
                    throw taken;
                }
            }
        }
    }

    private static boolean isTaken(DataIntegrityViolationException refused) {
        return refused.getMostSpecificCause() instanceof SQLException sql && UNIQUE_VIOLATION.equals(sql.getSQLState());
    }

    private Done attempt(Viewer viewer, String form, String key, byte[] typed, Supplier<String> work) {
        List<Earlier> earlier = jdbc.query(
                "select content, result from form_once where site_id = ? and account_id = ? and form = ? and form_key = ?",
                (row, n) -> new Earlier(row.getBytes(1), row.getString(2)),
                viewer.site().value(),
                viewer.account().value(),
                form,
                key);
        if (!earlier.isEmpty()) {
            if (!Arrays.equals(earlier.get(0).content(), typed)) {
                throw new Refused("form.changed", earlier.get(0).result());
            }
            return new Done(earlier.get(0).result(), true);
        }
        String result = work.get();
        int kept = jdbc.update("""
                insert into form_once (site_id, account_id, form, form_key, content, result, made_at)
                values (?, ?, ?, ?, ?, ?, service_now()) on conflict do nothing""", viewer.site().value(), viewer.account().value(), form, key, typed, result);
        if (kept == 0) {
            throw new SentTwice();
        }
        return new Done(result, false);
    }

    private record Earlier(byte[] content, String result) {}

    /** The same form was recorded while this attempt ran: undo this one and show the other. */
    private static final class SentTwice extends ConcurrencyFailureException {
        SentTwice() {
            super("the same form was recorded at the same moment");
        }
    }
}
