package org.hoodkeeper.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.hoodkeeper.evidence.GuidedWorks;
import org.hoodkeeper.facts.Guide;
import org.hoodkeeper.facts.GuideStepWords;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartClass;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.History;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Which steps a guide has for a model. The order is the trade's own: what protects first, what is hidden last; common practice,
 * no source. The maker's instructions go first: each model can leave a step out or have words of its own, but for steps
 * that law or recipe ask for, and can have steps of its own between them.
 */
@Service
@Transactional(readOnly = true)
public class Guides {

    /** More versions of a model's data and words than anyone writes. */
    private static final int MOST = 1_000;

    private final History history;

    Guides(History history) {
        this.history = history;
    }

    /**
     * The steps in their order.
     *
     * @param changed the part to be changed, for {@link Guide#CHANGE}; none for other work
     */
    public List<GuideStep> steps(
            SiteId site, ModelId model, ModelData data, Guide guide, @Nullable PartClass changed, Instant at) {
        Map<String, GuideStepWords> own = own(site, model, at);
        List<GuideStep> steps = new ArrayList<>();
        for (GuideStep step : usual(guide, data, changed)) {
            GuideStepWords words = own.get(step.key());
            boolean keptAnyway =
                    words != null && words.use() == GuideStepWords.Use.LEFT_OUT && GuidedWorks.isNeeded(step.key());
            if (words == null || words.use() == GuideStepWords.Use.AS_USUAL || keptAnyway) {
                steps.add(step);
            } else if (words.use() == GuideStepWords.Use.WITH_WORDS) {
                steps.add(new GuideStep(guide, step.code(), step.part(), words.words()));
            }
        }
        own(own, guide, changed).forEach((step, after) -> {
            GuideStepWords words = own.get(step.key());
            if (words != null && words.use() == GuideStepWords.Use.ADDED) {
                steps.add(place(steps, after), step);
            }
        });
        return steps;
    }

    /** The steps of its own that a model has or had in that work, in the order in which they are put in, each with what it follows. */
    private static Map<GuideStep, String> own(
            Map<String, GuideStepWords> adapted, Guide guide, @Nullable PartClass changed) {
        String prefix = (changed == null ? guide.name() : guide + "." + changed) + GuideStepWords.OWN;
        Map<GuideStep, String> own = new LinkedHashMap<>();
        adapted.entrySet().stream()
                .filter(one -> one.getKey().startsWith(prefix))
                .sorted(Comparator.comparingInt(
                        one -> Integer.parseInt(one.getKey().substring(prefix.length()))))
                .forEach(one -> own.put(
                        new GuideStep(
                                guide,
                                one.getKey().substring(guide.name().length() + 1),
                                changed,
                                one.getValue().words()),
                        Objects.requireNonNullElse(one.getValue().after(), "")));
        return own;
    }

    /** Behind the step that it follows and its own steps there; at the end where that one is not done on this model. */
    private static int place(List<GuideStep> steps, String after) {
        int place = after.isEmpty() ? 0 : -1;
        for (int i = 0; i < steps.size() && place < 0; i++) {
            place = steps.get(i).key().equals(after) ? i + 1 : -1;
        }
        place = place < 0 ? steps.size() : place;
        while (place < steps.size() && steps.get(place).isOwn()) {
            place++;
        }
        return place;
    }

    /** The steps of its own that a model has or had, by guide and number. */
    public List<GuideStep> ownSteps(ModelData data, Map<String, GuideStepWords> adapted) {
        List<GuideStep> own = new ArrayList<>();
        for (Guide guide : Guide.values()) {
            if (guide != Guide.CHANGE) {
                own.addAll(own(adapted, guide, null).keySet());
            }
        }
        PartClass.CHANGED_HERE.stream()
                .sorted()
                .filter(PartClass.of(data)::contains)
                .forEach(part -> own.addAll(own(adapted, Guide.CHANGE, part).keySet()));
        return own;
    }

    /** Every step that the guides have for such a model before it is adapted. */
    public List<GuideStep> all(ModelData data) {
        List<GuideStep> all = new ArrayList<>();
        for (Guide guide : Guide.values()) {
            if (guide != Guide.CHANGE) {
                all.addAll(usual(guide, data, null));
            }
        }
        PartClass.CHANGED_HERE.stream()
                .sorted()
                .filter(PartClass.of(data)::contains)
                .forEach(part -> all.addAll(usual(Guide.CHANGE, data, part)));
        return all;
    }

    /** What is done otherwise on a model, by guide and step, as known then. */
    public Map<String, GuideStepWords> own(SiteId site, ModelId model, Instant at) {
        Map<String, GuideStepWords> own = new HashMap<>();
        for (History.Version version : history.of(site, model, at, MOST)) {
            if (version.kind() == Kind.GUIDE_STEP_WORDS
                    && version.isCurrent()
                    && version.told().scope() != null
                    && version.told().fact() instanceof GuideStepWords words) {
                own.putIfAbsent(version.told().scope(), words);
            }
        }
        return own;
    }

    private static List<GuideStep> usual(Guide guide, ModelData data, @Nullable PartClass changed) {
        List<GuideStep> steps = new ArrayList<>();
        switch (guide) {
            case ASSEMBLY -> assembly(steps, data);
            case INSPECTION -> PartClass.of(data).forEach(part -> steps.add(new GuideStep(guide, part.name(), part)));
            case FLOW -> {
                if (data.type().hasFlow()) {
                    add(steps, guide, "INDICATOR", "SEALED", "FLOAT_FREE", "READ");
                }
            }
            case DONNING -> donning(steps, data);
            case CHANGE -> {
                if (changed != null && PartClass.of(data).contains(changed)) {
                    for (String code : List.of("TAKE_OUT", "SEAT", "FIT", "LOOK_AFTER")) {
                        steps.add(new GuideStep(guide, changed + "." + code, changed));
                    }
                }
            }
        }
        return steps;
    }

    private static void assembly(List<GuideStep> steps, ModelData data) {
        add(steps, Guide.ASSEMBLY, "UNPACK", "LABELS", "HEADTOP");
        if (data.type().filtersRoomAir()) {
            steps.add(new GuideStep(Guide.ASSEMBLY, "FILTER", PartClass.FILTER));
        }
        if (data.type().hasBlower()) {
            steps.add(new GuideStep(Guide.ASSEMBLY, "BATTERY", PartClass.BATTERY));
        }
        if (data.type().hasFlow()) {
            steps.add(new GuideStep(Guide.ASSEMBLY, "HOSE", PartClass.HOSE));
            add(steps, Guide.ASSEMBLY, "AIR_ON");
        }
    }

    private static void donning(List<GuideStep> steps, ModelData data) {
        if (data.type().hasFlow()) {
            add(steps, Guide.DONNING, "AIR_FIRST");
        }
        add(steps, Guide.DONNING, "HEAD");
        steps.add(new GuideStep(Guide.DONNING, data.type().isHood() ? "EDGE_ALL_ROUND" : "SEAL", PartClass.EDGE_SEAL));
        if (data.type().hasFlow()) {
            steps.add(new GuideStep(Guide.DONNING, "HOSE_RUN", PartClass.HOSE));
        }
        add(steps, Guide.DONNING, "MOVE");
        if (data.type().hasBlower()) {
            add(steps, Guide.DONNING, "ALARM");
        }
    }

    private static void add(List<GuideStep> steps, Guide guide, String... codes) {
        for (String code : codes) {
            steps.add(new GuideStep(guide, code, null));
        }
    }
}
