package org.hoodkeeper.facts;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * The sorbents and filters of a supply were changed, and the tag at the compressor says so: 29 CFR 1910.134(i)(5)(iv).
 *
 * @param changedBy who changed them and signed the tag
 * @param nextOn day by which they are due again, by the maker's instructions; none where the tag names none
 */
public record PurifierTag(
        @Nullable String changedBy, @Nullable LocalDate nextOn) implements Fact {}
