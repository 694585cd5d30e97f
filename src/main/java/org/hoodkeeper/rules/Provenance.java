package org.hoodkeeper.rules;

import org.hoodkeeper.facts.Mark;
import org.jspecify.annotations.Nullable;

/**
 * Where a rule or figure stands, and how well it is vouched for.
 *
 * @param clause the place in the source: paragraph, section, page, or "no clause" where it is practice
 * @param source title of the source with its edition
 * @param mark anything but verified and computed is shown beside the rule
 * @param note what a reader must know besides; in English, as the sources are
 */
public record Provenance(
        String clause, String source, Mark mark, @Nullable String note) {}
