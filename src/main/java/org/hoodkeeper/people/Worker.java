package org.hoodkeeper.people;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.io.Serializable;
import java.util.UUID;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Persistable;

/** A person who may wear protection on one site. The number is the site's own and never changes. */
@Entity
@Table(name = "worker")
public class Worker implements Persistable<Worker.Key> {

    @EmbeddedId
    private Key key;

    private String number;
    private String name;
    private @Nullable String employer;

    @Transient
    private boolean fresh;

    /** The site leads every key. */
    @Embeddable
    record Key(
            @Column(name = "site_id") UUID siteId,
            @Column(name = "id") UUID id) implements Serializable {}

    protected Worker() {}

    Worker(SiteId site, UUID id, String number, String name, @Nullable String employer) {
        this.key = new Key(site.value(), id);
        this.number = number;
        this.name = name;
        this.employer = employer;
        this.fresh = true;
    }

    public WorkerId id() {
        return new WorkerId(key.id());
    }

    public String number() {
        return number;
    }

    public String name() {
        return name;
    }

    /** The employer of contract staff; none for the site's own people. */
    public @Nullable String employer() {
        return employer;
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
