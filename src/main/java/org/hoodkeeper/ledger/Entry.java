package org.hoodkeeper.ledger;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.kernel.RecordId;

/** What was added in one go: its id, when the site was told, and the records in the order in which they were given. */
public record Entry(UUID id, Instant recordedAt, List<RecordId> records) {}
