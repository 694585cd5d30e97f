package org.hoodkeeper.web.oversight;

import java.util.Locale;
import org.hoodkeeper.facts.Finding;
import org.hoodkeeper.oversight.Findings;
import org.hoodkeeper.web.record.Names;
import org.jspecify.annotations.Nullable;

/**
 * Which findings are listed.
 *
 * @param state nothing for everything that is not closed
 * @param who part of a person's name or number, of a set's label or of a task's code
 * @param owner the account that answers for it
 * @param from first day on which a wear began; nothing for three months back
 * @param until last such day
 */
public record FindingsForm(
        @Nullable String sort,
        @Nullable String state,
        @Nullable String who,
        @Nullable String owner,
        @Nullable String from,
        @Nullable String until,
        @Nullable String page) {

    static final String EVERY = "ALL";

    boolean fits(Findings.Found found, Names.Book names) {
        return (sort == null || sort.isBlank() || found.sort().name().equals(sort))
                && fitsState(found)
                && fitsOwner(found)
                && (who == null || who.isBlank() || fitsWho(found, names));
    }

    /** @return the page asked for, the first being 1 */
    int number() {
        return page != null && page.matches("[1-9][0-9]{0,5}") ? Integer.parseInt(page) : 1;
    }

    private boolean fitsState(Findings.Found found) {
        if (state == null || state.isBlank()) {
            return !found.isClosed();
        }
        return state.equals(EVERY) || state.equals(found.state().name());
    }

    private boolean fitsOwner(Findings.Found found) {
        if (owner == null || owner.isBlank()) {
            return true;
        }
        Finding given = found.assignment();
        return given != null
                && given.owner() != null
                && given.owner().toString().equals(owner);
    }

    private boolean fitsWho(Findings.Found found, Names.Book names) {
        String part = who == null ? "" : who.strip().toLowerCase(Locale.ROOT);
        String all = names.number(found.worn().worker()) + " " + names.worn(found.worn());
        return all.toLowerCase(Locale.ROOT).contains(part);
    }
}
