package org.hoodkeeper.kit;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.io.Serializable;
import java.util.UUID;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SiteId;
import org.springframework.data.domain.Persistable;

/** A model of interface. What its maker says of it is told to the ledger, with dates. */
@Entity
@Table(name = "kit_model")
public class Model implements Persistable<Model.Key> {

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

    protected Model() {}

    Model(SiteId site, UUID id, String code) {
        this.key = new Key(site.value(), id);
        this.code = code;
        this.fresh = true;
    }

    public ModelId id() {
        return new ModelId(key.id());
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
