package org.hoodkeeper.facts;

import java.time.LocalDate;

/**
 * Records were erased because no rule asks for them any longer and no legal hold lies on them. Says how many and why, never
 * what they said.
 *
 * @param erased their kind
 * @param rule code of the rule that ended last for them
 * @param records how many, more than 0
 * @param lastDay the latest of the days through which they had to be kept
 * @param digest over what is left of each, hexadecimal: a row taken away beside it is found
 */
public record Erasure(Kind erased, String rule, int records, LocalDate lastDay, String digest) implements Fact {}
