package org.hoodkeeper.kit;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.io.Serializable;
import java.util.UUID;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.springframework.data.domain.Persistable;

/** A set, the thing worn, by the label that is stuck on it. What it is and who has it is told to the ledger. */
@Entity
@Table(name = "kit_set")
public class KitSet implements Persistable<KitSet.Key> {

    @EmbeddedId
    private Key key;

    private String label;

    @Transient
    private boolean fresh;

    /** The site leads every key. */
    @Embeddable
    record Key(
            @Column(name = "site_id") UUID siteId,
            @Column(name = "id") UUID id) implements Serializable {}

    protected KitSet() {}

    KitSet(SiteId site, UUID id, String label) {
        this.key = new Key(site.value(), id);
        this.label = label;
        this.fresh = true;
    }

    public SetId id() {
        return new SetId(key.id());
    }

    public String label() {
        return label;
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
