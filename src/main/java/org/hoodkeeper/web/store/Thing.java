package org.hoodkeeper.web.store;

import org.hoodkeeper.kernel.Id;

/**
 * An instrument or an air supply, as the pages that serve both know it.
 *
 * @param sort the first part of its addresses: {@code instruments} or {@code supplies}
 */
public record Thing(String sort, String code, Id id) {}
