package org.hoodkeeper.kit;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.repository.Repository;

interface Instruments extends Repository<Instrument, Instrument.Key> {

    Instrument save(Instrument one);

    Optional<Instrument> findByKeySiteIdAndCode(UUID siteId, String code);

    Optional<Instrument> findByKeySiteIdAndKeyId(UUID siteId, UUID id);

    List<Instrument> findByKeySiteIdOrderByCode(UUID siteId);
}
