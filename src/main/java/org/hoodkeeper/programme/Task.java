package org.hoodkeeper.programme;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.io.Serializable;
import java.util.UUID;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.springframework.data.domain.Persistable;

/** A task of the site. Its basis is told to the ledger. */
@Entity
@Table(name = "task")
public class Task implements Persistable<Task.Key> {

    @EmbeddedId
    private Key key;

    private String code;

    @Transient
    private boolean fresh;

    /** The site leads every key. */
    @Embeddable
    record Key(
            @Column(name = "site_id") UUID siteId,
            @Column(name = "id") UUID id) implements Serializable {}

    protected Task() {}

    Task(SiteId site, UUID id, String code) {
        this.key = new Key(site.value(), id);
        this.code = code;
        this.fresh = true;
    }

    public TaskId id() {
        return new TaskId(key.id());
    }

    public String code() {
        return code;
    }

    @Override
    public Key getId() {
        return key;
    }

    @Override
    public boolean isNew() {
        return fresh;
    }
}
