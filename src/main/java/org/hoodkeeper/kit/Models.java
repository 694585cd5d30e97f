package org.hoodkeeper.kit;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.repository.Repository;

interface Models extends Repository<Model, Model.Key> {

    Model save(Model one);

    Optional<Model> findByKeySiteIdAndCode(UUID siteId, String code);

    Optional<Model> findByKeySiteIdAndKeyId(UUID siteId, UUID id);

    List<Model> findByKeySiteIdOrderByCode(UUID siteId);
}
