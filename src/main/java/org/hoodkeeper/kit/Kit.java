package org.hoodkeeper.kit;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.regex.Pattern;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ids;
import org.hoodkeeper.ledger.Ledger;
import org.springframework.jdbc.core.JdbcTemplate;
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
    private final JdbcTemplate jdbc;

    Kit(KitSets sets, Models models, Instruments instruments, AirSupplies supplies, Ledger ledger, JdbcTemplate jdbc) {
        this.sets = sets;
        this.models = models;
        this.instruments = instruments;
        this.supplies = supplies;
        this.ledger = ledger;
        this.jdbc = jdbc;
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
     * What the maker says is different from an instant on; what was before stays.
     *
     * @throws NotFound {@code model.unknown}
     */
    @Transactional
    public RecordId changeModel(Author author, ModelId model, ModelData data, Instant from) {
        model(author.site(), model);
        return ledger.append(author, Draft.of(data, model, from));
    }

    /**
     * What we held of the model was wrong all along: the data in force at an instant are replaced from their own beginning on.
     *
     * @param inForceAt an instant at which the wrong data count
     * @throws NotFound {@code model.unknown}
     * @throws Refused {@code model.inForceAt.none} when nothing was held of it by then, {@code ledger.becauseMissing}
     */
    @Transactional
    public RecordId correctModel(Author author, ModelId model, ModelData data, Instant inForceAt, String because) {
        model(author.site(), model);
        return jdbc
                .query(
                        """
                        select r.id, r.true_from from ledger_record r
                        where r.site_id = ? and r.subject = ? and r.kind = ? and r.true_from <= ? and not r.withdrawn
                          and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
                        order by r.true_from desc, r.recorded_at desc, r.id desc limit 1""",
                        (row, n) -> Draft.of(data, model, row.getTimestamp(2).toInstant())
                                .correcting(new RecordId(row.getObject(1, UUID.class)), because),
                        author.site().value(),
                        model.value(),
                        Kind.MODEL.number(),
                        inForceAt.atOffset(ZoneOffset.UTC))
                .stream()
                .findFirst()
                .map(draft -> ledger.append(author, draft))
                .orElseThrow(() -> new Refused("model.inForceAt.none", inForceAt));
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
        sets.flush();
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

    /** @throws NotFound {@code instrument.unknown} */
    public Instrument instrument(SiteId site, InstrumentId id) {
        return instruments
                .findByKeySiteIdAndKeyId(site.value(), id.value())
                .orElseThrow(() -> new NotFound("instrument.unknown", id));
    }

    /** @throws NotFound {@code supply.unknown} */
    public AirSupply supply(SiteId site, SupplyId id) {
        return supplies.findByKeySiteIdAndKeyId(site.value(), id.value())
                .orElseThrow(() -> new NotFound("supply.unknown", id));
    }

    /** @throws NotFound {@code supply.unknown} */
    public AirSupply supply(SiteId site, String code) {
        return supplies.findByKeySiteIdAndCode(site.value(), code)
                .orElseThrow(() -> new NotFound("supply.unknown", code));
    }

    public Optional<KitSet> findSet(SiteId site, String label) {
        return sets.findByKeySiteIdAndLabel(site.value(), label);
    }

    public Optional<Instrument> findInstrument(SiteId site, String code) {
        return instruments.findByKeySiteIdAndCode(site.value(), code);
    }

    public Optional<AirSupply> findSupply(SiteId site, String code) {
        return supplies.findByKeySiteIdAndCode(site.value(), code);
    }

    /** Those of these ids that are sets of the site, in any order. */
    public List<KitSet> sets(SiteId site, Collection<UUID> ids) {
        return ids.isEmpty() ? List.of() : sets.findByKeySiteIdAndKeyIdIn(site.value(), ids);
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

    /** What the kit is entered in. */
    public enum Register {
        SETS("kit_set", "label"),
        MODELS("kit_model", "code"),
        INSTRUMENTS("kit_instrument", "code"),
        SUPPLIES("kit_supply", "code");

        private final String table;
        private final String name;

        Register(String table, String name) {
            this.table = table;
            this.name = name;
        }
    }

    /**
     * Enters labels or codes from a file, which were looked at; what is told of them goes to the ledger beside. Safe to repeat
     * with the same ids.
     *
     * @throws org.springframework.dao.DuplicateKeyException when somebody else has entered one of them meanwhile
     */
    @Transactional
    public void enlist(SiteId site, Register register, Map<UUID, String> names) {
        jdbc.batchUpdate(
                "insert into " + register.table + " (site_id, id, " + register.name + ") values (?, ?, ?)"
                        + " on conflict on constraint " + register.table + "_pk do nothing",
                names.entrySet().stream()
                        .map(one -> new Object[] {site.value(), one.getKey(), one.getValue()})
                        .toList());
    }
}
