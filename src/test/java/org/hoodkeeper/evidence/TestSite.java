package org.hoodkeeper.evidence;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.function.Supplier;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SilicaAir;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.springframework.boot.test.context.TestComponent;

/** An invented site with one hood, one full mask, an indicator in date, a worker and a task; each call lays a new one. */
@TestComponent
public class TestSite {

    public static final Instant BEGINNING = Instant.parse("2026-01-05T06:00:00Z");

    private final SiteRegister sites;
    private final Kit kit;
    private final People people;
    private final Programme programme;
    private final Calibrations calibrations;

    TestSite(SiteRegister sites, Kit kit, People people, Programme programme, Calibrations calibrations) {
        this.sites = sites;
        this.kit = kit;
        this.people = people;
        this.programme = programme;
        this.calibrations = calibrations;
    }

    public record Laid(
            Site site,
            Author author,
            WorkerId worker,
            WorkerId other,
            ModelId hoodModel,
            ModelId maskModel,
            SetId hood,
            SetId mask,
            InstrumentId indicator,
            TaskId task) {

        public <T> T in(Supplier<T> work) {
            return SiteBinding.in(site.id(), work);
        }

        public void run(Runnable work) {
            SiteBinding.run(site.id(), work);
        }
    }

    public Laid lay(String ruleSet) {
        Site site = sites.open("t" + unique(), "Invented works", ZoneId.of("Europe/London"), ruleSet);
        return lay(site);
    }

    public Laid lay(Site site) {
        Author author = new Author(site.id(), new AccountId(UUID.randomUUID()), Author.Via.DEMO);
        return SiteBinding.in(site.id(), () -> laid(site, author));
    }

    private Laid laid(Site site, Author author) {
        ModelId hoodModel = kit.addModel(author, "HOOD-A", hood(), BEGINNING);
        ModelId maskModel = kit.addModel(author, "MASK-B", mask(), BEGINNING);
        InstrumentId indicator = kit.addInstrument(site.id(), "IND-1");
        calibrations.record(author, indicator, calibration("2026-12-31"), BEGINNING, null);
        return new Laid(
                site,
                author,
                people.register(site.id(), "W-1", "Ada Invented", null),
                people.register(site.id(), "W-2", "Bo Invented", null),
                hoodModel,
                maskModel,
                kit.addSet(author, "H-1", new SetData(hoodModel, "M", "R1", null, false, null, null), BEGINNING),
                kit.addSet(author, "M-1", new SetData(maskModel, "M", "R1", null, false, null, null), BEGINNING),
                indicator,
                programme.addTask(author, "BLAST", basis(), BEGINNING));
    }

    /** Minimum 170 L/min in the air as it is. */
    public static ModelData hood() {
        return new ModelData(
                "Invented hood",
                InterfaceType.POWERED_HOOD,
                Map.of("uk", "TH2"),
                false,
                Set.of("M"),
                "R1",
                new BigDecimal("170"),
                ModelData.FlowAt.LOCAL,
                480,
                Set.of(FilterKind.PARTICLE),
                List.of(),
                null,
                List.of(new ModelData.Slot("visor", Set.of("V-1"), null)));
    }

    public static ModelData mask() {
        return new ModelData(
                "Invented mask",
                InterfaceType.FULL_MASK,
                Map.of("uk", "FM-P3", "us-federal", "full-facepiece"),
                false,
                Set.of("S", "M"),
                "R1",
                null,
                ModelData.FlowAt.LOCAL,
                null,
                Set.of(FilterKind.PARTICLE),
                List.of(),
                null,
                List.of());
    }

    /** True at 20 °C and 1,013.25 hPa, factor 1, no uncertainty on the certificate. */
    public static Calibration calibration(String lastDay) {
        return new Calibration(
                Outcome.PASS,
                true,
                BigDecimal.ONE,
                null,
                new BigDecimal("20"),
                new BigDecimal("1013.25"),
                LocalDate.parse(lastDay),
                null,
                null);
    }

    private static TaskBasis basis() {
        return SilicaAir.of("0.5");
    }

    public static String unique() {
        return UUID.randomUUID().toString().substring(24);
    }
}
