package org.hoodkeeper.bench;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Draft;

/** What everybody on a made-up site shares: models, tasks, limits, decisions, instruments, air supplies. */
final class Ground {

    static final int TASKS = 12;
    private static final BigDecimal TWENTY = new BigDecimal("20");
    private static final BigDecimal SEA_LEVEL = new BigDecimal("1013.25");

    final SiteId site;
    final Map<String, ModelId> models = new LinkedHashMap<>();
    final Map<String, ModelData> data = new LinkedHashMap<>();
    final List<TaskId> tasks = new ArrayList<>();
    final List<InstrumentId> instruments = new ArrayList<>();
    final List<SupplyId> supplies = new ArrayList<>();
    final List<Draft> drafts = new ArrayList<>();

    Ground(SiteId site, Instant start, int workers, Function<Instant, java.util.UUID> ids) {
        this.site = site;
        model(ids, start, "H20", "Lowmoor hood", InterfaceType.POWERED_HOOD, "TH2", "170", 480);
        model(ids, start, "H40", "Hallam hood", InterfaceType.POWERED_HOOD, "TH3", "180", 480);
        model(ids, start, "PF", "Dunlin blown full mask", InterfaceType.POWERED_FULL_MASK, "TM3 full", "120", 480);
        model(ids, start, "M20", "Dunlin half mask", InterfaceType.HALF_MASK, "half P3", null, null);
        model(ids, start, "F40", "Dunlin full mask", InterfaceType.FULL_MASK, "full P3", null, null);
        model(ids, start, "A40", "Tarn air hood", InterfaceType.AIRLINE_HOOD, "14594-3 hood", "140", null);
        for (int i = 0; i < TASKS; i++) {
            TaskId task = new TaskId(ids.apply(start));
            tasks.add(task);
            drafts.add(Draft.of(basis(i, start), task, start));
        }
        Limit limit = new Limit(
                new BigDecimal("0.1"),
                "mg/m3",
                null,
                Set.of(FilterKind.PARTICLE),
                false,
                "EH40 addendum (2006)",
                Mark.VERIFIED);
        drafts.add(Draft.of(limit, site, start).scope("respirable silica"));
        decide(start, "fit-test.interval", "P24M");
        decide(start, "training.interval", "P12M");
        decide(start, "notice.period", "P30D");
        for (InterfaceType type : List.of(
                InterfaceType.HALF_MASK, InterfaceType.FULL_MASK, InterfaceType.POWERED_FULL_MASK)) {
            decide(start, "medical.required/" + type.name(), "yes");
        }
        for (int i = 0; i < Math.max(2, workers / 100); i++) {
            instruments.add(new InstrumentId(ids.apply(start)));
        }
        for (int i = 0; i < Math.max(2, workers / 400); i++) {
            supplies.add(new SupplyId(ids.apply(start)));
        }
    }

    private void model(
            Function<Instant, java.util.UUID> ids,
            Instant start,
            String code,
            String name,
            InterfaceType type,
            String ukClass,
            String flow,
            Integer battery) {
        ModelId id = new ModelId(ids.apply(start));
        ModelData model = new ModelData(
                name,
                type,
                Map.of("uk", ukClass),
                false,
                Set.of("S", "M", "L"),
                "R1",
                flow == null ? null : new BigDecimal(flow),
                ModelData.FlowAt.LOCAL,
                battery,
                type.isAirFed() ? Set.of() : Set.of(FilterKind.PARTICLE),
                List.of(new ModelData.Product("OX-4", new BigDecimal("1000"), "ppm available chlorine", 120)),
                new BigDecimal("40"),
                List.of(new ModelData.Slot("visor", Set.of("V-" + code), null)));
        models.put(code, id);
        data.put(code, model);
        drafts.add(Draft.of(model, id, start));
    }

    private static TaskBasis basis(int i, Instant start) {
        String[] levels = {"0.6", "1.42", "0.9", "1.1", "2.4", "0.4", "1.8", "0.8", "1.2", "3.1", "0.5", "1.6"};
        return new TaskBasis(
                List.of(new TaskBasis.Exposure("respirable silica", new BigDecimal(levels[i]), "mg/m3")),
                TaskBasis.Mixture.ADDITIVE,
                TaskBasis.Atmosphere.ORDINARY,
                Set.of(),
                i % 3 == 0 ? MedicalOutcome.WorkRate.HEAVY : MedicalOutcome.WorkRate.MODERATE,
                "UTL95_70",
                LocalDate.ofInstant(start, ZoneOffset.UTC).plusYears(6),
                null);
    }

    private void decide(Instant start, String key, String value) {
        drafts.add(Draft.of(new SiteDecision(value, "R. Aldous, safety officer", "As agreed in committee"), site, start)
                .scope(key));
    }

    /** The calibrations and air tests of one week: each instrument once a year, each supply every three months. */
    List<Draft> upkeep(int week, Instant at) {
        List<Draft> upkeep = new ArrayList<>();
        for (int i = 0; i < instruments.size(); i++) {
            if (week == 0 || (week + i) % 50 == 0) {
                Calibration calibration = new Calibration(
                        Outcome.PASS,
                        true,
                        BigDecimal.ONE,
                        BigDecimal.valueOf(2),
                        TWENTY,
                        SEA_LEVEL,
                        LocalDate.ofInstant(at, ZoneOffset.UTC).plusYears(1),
                        "FC-" + week + "-" + i,
                        null);
                upkeep.add(Draft.of(calibration, instruments.get(i), at));
            }
        }
        for (int i = 0; i < supplies.size(); i++) {
            if (week == 0 || (week + i) % 12 == 0) {
                AirTest test = new AirTest(
                        Outcome.PASS,
                        "EN 12021:2014",
                        new BigDecimal("20.9"),
                        BigDecimal.ONE,
                        new BigDecimal("420"),
                        new BigDecimal("0.1"),
                        new BigDecimal("-14"),
                        "Brack Air Laboratory",
                        null,
                        null,
                        null);
                upkeep.add(Draft.of(test, supplies.get(i), at));
            }
        }
        return upkeep;
    }
}
