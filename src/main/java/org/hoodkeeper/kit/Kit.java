package org.hoodkeeper.kit;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import java.util.regex.Pattern;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ids;
import org.hoodkeeper.ledger.Ledger;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The kit of a site by its labels: models, sets, instruments, air supplies. */
@Service
@Transactional(readOnly = true)
public class Kit {

    private static final Pattern CODE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,29}");

    private final KitSets sets;
    private final Models models;
    private final Instruments instruments;
    private final AirSupplies supplies;
    private final Ledger ledger;

    Kit(KitSets sets, Models models, Instruments instruments, AirSupplies supplies, Ledger ledger) {
        this.sets = sets;
        this.models = models;
        this.instruments = instruments;
        this.supplies = supplies;
        this.ledger = ledger;
    }

    /**
     * A model that the site did not hold so far, with what its maker says of it from an instant on.
     *
     * @throws Refused {@code kit.code.form}, {@code model.code.taken}
     */
    @Transactional
    public ModelId addModel(Author author, String code, ModelData data, Instant from) {
        requireCode(code);
        UUID site = author.site().value();
        if (models.findByKeySiteIdAndCode(site, code).isPresent()) {
            throw new Refused("model.code.taken", code);
        }
        ModelId id = models.save(new Model(author.site(), Ids.next(), code)).id();
        ledger.append(author, Draft.of(data, id, from));
        return id;
    }

    /**
     * A set that has been accepted into the store.
     *
     * @throws Refused {@code kit.code.form}, {@code set.label.taken}
     */
    @Transactional
    public SetId addSet(Author author, String label, SetData data, Instant receivedAt) {
        requireCode(label);
        if (sets.findByKeySiteIdAndLabel(author.site().value(), label).isPresent()) {
            throw new Refused("set.label.taken", label);
        }
        SetId id = sets.save(new KitSet(author.site(), Ids.next(), label)).id();
        ledger.append(
                author,
                List.of(
                        Draft.of(data, id, receivedAt),
                        Draft.of(new Custody(Custody.Claim.RECEIVED, null, null), id, receivedAt)));
        return id;
    }

    /** @throws Refused {@code kit.code.form}, {@code instrument.code.taken} */
    @Transactional
    public InstrumentId addInstrument(SiteId site, String code) {
        requireCode(code);
        if (instruments.findByKeySiteIdAndCode(site.value(), code).isPresent()) {
            throw new Refused("instrument.code.taken", code);
        }
        return instruments.save(new Instrument(site, Ids.next(), code)).id();
    }

    /** @throws Refused {@code kit.code.form}, {@code supply.code.taken} */
    @Transactional
    public SupplyId addSupply(SiteId site, String code) {
        requireCode(code);
        if (supplies.findByKeySiteIdAndCode(site.value(), code).isPresent()) {
            throw new Refused("supply.code.taken", code);
        }
        return supplies.save(new AirSupply(site, Ids.next(), code)).id();
    }

    /** @throws NotFound {@code set.unknown} */
    public KitSet set(SiteId site, String label) {
        return sets.findByKeySiteIdAndLabel(site.value(), label).orElseThrow(() -> new NotFound("set.unknown", label));
    }

    /** @throws NotFound {@code set.unknown} */
    public KitSet set(SiteId site, SetId id) {
        return sets.findByKeySiteIdAndKeyId(site.value(), id.value())
                .orElseThrow(() -> new NotFound("set.unknown", id));
    }

    /** @throws NotFound {@code model.unknown} */
    public Model model(SiteId site, String code) {
        return models.findByKeySiteIdAndCode(site.value(), code).orElseThrow(() -> new NotFound("model.unknown", code));
    }

    /** @throws NotFound {@code model.unknown} */
    public Model model(SiteId site, ModelId id) {
        return models.findByKeySiteIdAndKeyId(site.value(), id.value())
                .orElseThrow(() -> new NotFound("model.unknown", id));
    }

    /** @throws NotFound {@code instrument.unknown} */
    public Instrument instrument(SiteId site, String code) {
        return instruments
                .findByKeySiteIdAndCode(site.value(), code)
                .orElseThrow(() -> new NotFound("instrument.unknown", code));
    }

    /** @throws NotFound {@code supply.unknown} */
    public AirSupply supply(SiteId site, String code) {
        return supplies.findByKeySiteIdAndCode(site.value(), code)
                .orElseThrow(() -> new NotFound("supply.unknown", code));
    }

    public List<KitSet> sets(SiteId site) {
        return sets.findByKeySiteIdOrderByLabel(site.value());
    }

    public List<Model> models(SiteId site) {
        return models.findByKeySiteIdOrderByCode(site.value());
    }

    public List<Instrument> instruments(SiteId site) {
        return instruments.findByKeySiteIdOrderByCode(site.value());
    }

    public List<AirSupply> supplies(SiteId site) {
        return supplies.findByKeySiteIdOrderByCode(site.value());
    }

    private static void requireCode(String code) {
        if (!CODE.matcher(code).matches()) {
            throw new Refused("kit.code.form", code);
        }
    }
}
