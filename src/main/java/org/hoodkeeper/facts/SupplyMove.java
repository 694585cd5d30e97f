package org.hoodkeeper.facts;

/** A supply was moved, or its surroundings changed so that its intake may be spoilt. Voids the tests before it. */
public record SupplyMove(String place) implements Fact {}
