package org.hoodkeeper.kit;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.repository.Repository;

interface KitSets extends Repository<KitSet, KitSet.Key> {

    KitSet save(KitSet one);

    Optional<KitSet> findByKeySiteIdAndLabel(UUID siteId, String label);

    Optional<KitSet> findByKeySiteIdAndKeyId(UUID siteId, UUID id);

    List<KitSet> findByKeySiteIdOrderByLabel(UUID siteId);
}
