package org.hoodkeeper.people;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.repository.Repository;

interface Workers extends Repository<Worker, Worker.Key> {

    /** Written at once: what is told of the person in the same transaction finds them. */
    Worker saveAndFlush(Worker worker);

    Optional<Worker> findByKeySiteIdAndNumber(UUID siteId, String number);

    Optional<Worker> findByKeySiteIdAndKeyId(UUID siteId, UUID id);

    List<Worker> findByKeySiteIdOrderByNumber(UUID siteId);
}
