package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;

/**
 * A set failed its flow check and is out of use. Published within the transaction that recorded it: what a listener adds
 * stands or falls with the check.
 *
 * @param check the failed check
 * @param at when it was made
 */
public record FlowCheckFailed(Author author, SetId set, RecordId check, Instant at) {}
