package org.hoodkeeper.kit;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.repository.Repository;

interface AirSupplies extends Repository<AirSupply, AirSupply.Key> {

    AirSupply save(AirSupply one);

    Optional<AirSupply> findByKeySiteIdAndCode(UUID siteId, String code);

    Optional<AirSupply> findByKeySiteIdAndKeyId(UUID siteId, UUID id);

    List<AirSupply> findByKeySiteIdOrderByCode(UUID siteId);
}
