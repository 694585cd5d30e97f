package org.hoodkeeper.evidence;

import java.util.Set;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;
import org.jspecify.annotations.Nullable;

/**
 * What parts sets have, or which are recalled, may have changed. Published within the transaction that told it: what a listener
 * adds stands or falls with it.
 *
 * @param sets which may be concerned; none for every set of the site
 */
public record PartsTold(Author author, @Nullable Set<SetId> sets) {}
