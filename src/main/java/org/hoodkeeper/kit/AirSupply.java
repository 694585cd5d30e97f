package org.hoodkeeper.kit;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.io.Serializable;
import java.util.UUID;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.SupplyId;
import org.springframework.data.domain.Persistable;

/** A breathing-air supply. Its tests and moves are told to the ledger. */
@Entity
@Table(name = "kit_supply")
public class AirSupply implements Persistable<AirSupply.Key> {

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

    protected AirSupply() {}

    AirSupply(SiteId site, UUID id, String code) {
        this.key = new Key(site.value(), id);
        this.code = code;
        this.fresh = true;
    }

    public SupplyId id() {
        return new SupplyId(key.id());
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
