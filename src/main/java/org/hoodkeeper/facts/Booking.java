package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * A seat that is booked for a worker: refresher, fit test, medical evaluation. {@link Told#from()} is when it takes place.
 * A reason for being late is shown, but never makes up for the missing evidence.
 *
 * @param what the kind of evidence it will give
 * @param lateBecause why it comes after the due date
 */
public record Booking(Kind what, @Nullable String lateBecause) implements Fact {}
