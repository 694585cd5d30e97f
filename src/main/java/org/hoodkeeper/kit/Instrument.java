package org.hoodkeeper.kit;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.io.Serializable;
import java.util.UUID;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.SiteId;
import org.springframework.data.domain.Persistable;

/** A measuring instrument. Its calibrations are told to the ledger. */
@Entity
@Table(name = "kit_instrument")
public class Instrument implements Persistable<Instrument.Key> {

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

    protected Instrument() {}

    Instrument(SiteId site, UUID id, String code) {
        this.key = new Key(site.value(), id);
        this.code = code;
        this.fresh = true;
    }

    public InstrumentId id() {
        return new InstrumentId(key.id());
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
