package org.hoodkeeper.web.sheet;

import org.hoodkeeper.kernel.WorkerId;

/** Whom a page is about. */
public record Person(WorkerId id, String number, String name) {}
