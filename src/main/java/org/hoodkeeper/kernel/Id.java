package org.hoodkeeper.kernel;

import java.util.UUID;

/** A typed id: says what it identifies, so that a worker's id is never taken for a set's. */
public interface Id {

    UUID value();
}
