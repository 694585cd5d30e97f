package org.hoodkeeper.kit;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.repository.Repository;

interface KitSets extends Repository<KitSet, KitSet.Key> {

    KitSet save(KitSet one);

    /** What follows in the same transaction locks the row by SQL, and must find it. */
    void flush();

    Optional<KitSet> findByKeySiteIdAndLabel(UUID siteId, String label);

    Optional<KitSet> findByKeySiteIdAndKeyId(UUID siteId, UUID id);

    List<KitSet> findByKeySiteIdAndKeyIdIn(UUID siteId, Collection<UUID> ids);

    List<KitSet> findByKeySiteIdOrderByLabel(UUID siteId);
}
