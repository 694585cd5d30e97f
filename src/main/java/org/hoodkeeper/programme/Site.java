package org.hoodkeeper.programme;

import com.fasterxml.uuid.Generators;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.PostLoad;
import jakarta.persistence.PostPersist;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Objects;
import java.util.UUID;
import org.hibernate.annotations.Generated;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Persistable;

/** A work site. Its zone decides when its days begin and end; its code stands in every address. */
@Entity
@Table(name = "site")
public class Site implements Persistable<UUID> {

    @Id
    @Column(name = "site_id")
    private UUID id;

    private String code;
    private String name;
    private String zone;
    private String firstRuleSet;

    @Generated
    @Column(insertable = false, updatable = false)
    private @Nullable Instant madeAt;

    @Transient
    private boolean stored;

    protected Site() {}

    Site(String code, String name, ZoneId zone, String firstRuleSet) {
        this.id = Generators.timeBasedEpochGenerator().generate();
        this.code = code;
        this.name = name;
        this.zone = zone.getId();
        this.firstRuleSet = firstRuleSet;
    }

    public SiteId id() {
        return new SiteId(id);
    }

    /** Two to twenty small letters, digits or hyphens; never changes. */
    public String code() {
        return code;
    }

    public String name() {
        return name;
    }

    public ZoneId zone() {
        return ZoneId.of(zone);
    }

    /** The rule set chosen when the site was opened; later ones are dated decisions of the site. */
    public String firstRuleSet() {
        return firstRuleSet;
    }

    public Instant madeAt() {
        return Objects.requireNonNull(madeAt, "read back when stored");
    }

    @Override
    public UUID getId() {
        return id;
    }

    /** Asked by the repository, so that a new site is inserted without being looked for first. */
    @Override
    public boolean isNew() {
        return !stored;
    }

    @PostLoad
    @PostPersist
    void markStored() {
        stored = true;
    }
}
