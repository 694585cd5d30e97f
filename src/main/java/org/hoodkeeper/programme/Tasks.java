package org.hoodkeeper.programme;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.data.repository.Repository;

interface Tasks extends Repository<Task, Task.Key> {

    Task save(Task one);

    Optional<Task> findByKeySiteIdAndCode(UUID siteId, String code);

    Optional<Task> findByKeySiteIdAndKeyId(UUID siteId, UUID id);

    List<Task> findByKeySiteIdOrderByCode(UUID siteId);
}
