package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.GuideStepWords;
import org.hoodkeeper.facts.GuidedWork;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Work done by a guide, and what a model's maker asks for in addition. */
@Service
@Transactional
public class GuidedWorks {

    /** More steps of its own than that no model needs; the guides would lead nobody any more. */
    private static final int MOST_OWN = 50;

    private final Telling telling;
    private final Known known;
    private final Ledger ledger;

    GuidedWorks(Telling telling, Known known, Ledger ledger) {
        this.ledger = ledger;
        this.telling = telling;
        this.known = known;
    }

    /**
     * Records the work. Each step that did not come out well opens a defect on its part, so that the set is out of use until
     * somebody has mended it.
     *
     * @param changed the part that was changed; none for other work
     * @param parts the place of the part that a step looks at, by the step's code; none where it looks at the whole
     * @throws Refused {@code guide.answers.missing} without answers
     */
    public RecordId record(
            Author author,
            SetId set,
            GuidedWork work,
            @Nullable String changed,
            Map<String, String> parts,
            Instant at) {
        List<Draft> drafts = new ArrayList<>();
        drafts.add(Draft.of(work, set, at).scope(changed));
        work.answers().forEach((step, outcome) -> {
            if (outcome == Outcome.FAIL) {
                String part = parts.get(step);
                String note = work.note() == null && part == null ? step : work.note();
                drafts.add(Draft.of(new Defect(Defect.Step.FOUND, part, note), set, at));
            }
        });
        return telling.tell(author, drafts, set).records().get(0);
    }

    /**
     * Steps that no model goes without, whatever its maker says. The flow is measured, with a valid indicator: ACoP L5, 179. What
     * is looked over: 29 CFR 1910.134(h)(3)(ii), for a filter ACoP L5, 178. The seal check at each donning: (g)(1)(iii); air
     * first, the edge all round, and a look after each change: common practice, no source.
     */
    private static final Set<String> NEEDED = Set.of(
            "FLOW.INDICATOR",
            "FLOW.SEALED",
            "FLOW.FLOAT_FREE",
            "FLOW.READ",
            "INSPECTION.VISOR",
            "INSPECTION.EDGE_SEAL",
            "INSPECTION.EXHALATION_VALVE",
            "INSPECTION.HARNESS",
            "INSPECTION.HOSE",
            "INSPECTION.HOSE_GASKET",
            "INSPECTION.FILTER",
            "INSPECTION.BATTERY",
            "DONNING.AIR_FIRST",
            "DONNING.SEAL",
            "DONNING.EDGE_ALL_ROUND");

    /** Whether law or recipe asks for a step, so that it cannot be left out. @param step guide and step */
    public static boolean isNeeded(String step) {
        return NEEDED.contains(step) || (step.startsWith("CHANGE.") && step.endsWith(".LOOK_AFTER"));
    }

    /**
     * Says how a model's step differs from the usual one.
     *
     * @param step guide and step, for instance {@code INSPECTION.VISOR}
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code guideWords.use.needed} to leave out one that
     *     {@link #isNeeded}; {@code guideWords.use.own} where a step of the model's own is to be anything but there or left out,
     *     or a usual one to be the model's own
     */
    public RecordId adapt(Author author, ModelId model, String step, GuideStepWords words, Instant from) {
        if (words.use() == GuideStepWords.Use.LEFT_OUT && isNeeded(step)) {
            throw new Refused("guideWords.use.needed");
        }
        boolean staysOwn = words.use() == GuideStepWords.Use.ADDED || words.use() == GuideStepWords.Use.LEFT_OUT;
        if (GuideStepWords.isOwn(step) ? !staysOwn : words.use() == GuideStepWords.Use.ADDED) {
            throw new Refused("guideWords.use.own");
        }
        return telling.tell(author, Draft.of(words, model, from).scope(step));
    }

    /**
     * Gives a model a step of its own, beside all that its guide has; it can neither replace nor hide another.
     *
     * @param work the guide, for a change with the part: {@code INSPECTION}, {@code CHANGE.VISOR}
     * @param words what is done, and what is looked for
     * @param after guide and step that it follows; none where it comes first
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code guideWords.words.many} when the model has too many
     */
    public RecordId add(
            Author author,
            ModelId model,
            String work,
            @Nullable String words,
            @Nullable String after,
            @Nullable String reason,
            Instant from) {
        // two officers at once would both count on the same number, and the later step would replace the earlier
        ledger.alone(author.site(), Kind.GUIDE_STEP_WORDS, model.value());
        List<String> own = known.newest(author.site(), GuideStepWords.class, Kind.GUIDE_STEP_WORDS, model).stream()
                .map(Told::scope)
                .filter(scope -> scope != null && scope.startsWith(work + GuideStepWords.OWN))
                .distinct()
                .toList();
        if (own.size() >= MOST_OWN) {
            throw new Refused("guideWords.words.many", MOST_OWN);
        }
        int number = own.stream()
                .mapToInt(scope -> Integer.parseInt(scope.substring(work.length() + GuideStepWords.OWN.length())))
                .max()
                .orElse(0);
        GuideStepWords step = new GuideStepWords(GuideStepWords.Use.ADDED, words, reason, after);
        return telling.tell(author, Draft.of(step, model, from).scope(work + GuideStepWords.OWN + (number + 1)));
    }
}
