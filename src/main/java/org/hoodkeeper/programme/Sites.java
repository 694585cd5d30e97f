package org.hoodkeeper.programme;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.repository.Repository;

interface Sites extends Repository<Site, UUID> {

    Optional<Site> findByCode(String code);

    Optional<Site> findById(UUID id);

    List<Site> findAllByOrderByName();

    /** Writes at once: others write rows that point to it by other means than JPA. */
    Site saveAndFlush(Site site);
}
