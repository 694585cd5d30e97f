package org.hoodkeeper.reporting;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.Dossier;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** Asks the question: who may wear what, where, until when, and why not. */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class Questions {

    /** Ways to work today are no help for a plan whose start is further back than this. */
    private static final Duration TODAY = Duration.ofHours(24);

    private final SiteRegister sites;
    private final AskedNames names;
    private final Dossiers dossiers;
    private final Alternatives alternatives;

    Questions(SiteRegister sites, AskedNames names, Dossiers dossiers, Alternatives alternatives) {
        this.sites = sites;
        this.names = names;
        this.dossiers = dossiers;
        this.alternatives = alternatives;
    }

    /**
     * The answer as this reader may see it.
     *
     * @throws NotFound a name, code or label that is not on this site; a worker who is not the reader's to see
     * @throws Refused {@code question.*} when the question makes no sense
     */
    public Answer ask(Viewer viewer, Asked asked) {
        AskedNames.Named named = names.of(viewer.site(), asked);
        Assessment.Staff staff = staff(viewer, named.worker());
        requireSight(viewer, named.worker(), staff);
        return ask(viewer, staff, question(viewer, named, asked), named);
    }

    /** The same with ids, for pages that have them. */
    public Answer ask(Viewer viewer, Question question) {
        AskedNames.Named named = names.of(question);
        Assessment.Staff staff = staff(viewer, named.worker());
        requireSight(viewer, named.worker(), staff);
        return ask(viewer, staff, question, named);
    }

    /** Everything, for decisions of the service itself: nobody reads it but through {@link #ask}. */
    public Answer whole(Question question) {
        Site site = sites.get(question.site());
        AskedNames.Named named = names.of(question);
        return Assessment.judge(
                question, dossier(question, label(question, named), named.models(), load(site, question, named)));
    }

    /** As {@link #whole}; none where the site had not been told of the set by then, so that nobody could be cleared with it. */
    public @Nullable Answer wholeIfTold(Question question) {
        try {
            return whole(question);
        } catch (NotFound notToldYet) {
            return null;
        }
    }

    private Answer ask(Viewer viewer, Assessment.Staff staff, Question question, AskedNames.Named named) {
        Site site = sites.get(viewer.site());
        Dossiers.Loaded loaded = load(site, question, named);
        Answer answer = Assessment.judgeFor(
                viewer, staff, question, dossier(question, label(question, named), named.models(), loaded));
        boolean today = !question.wear().from().isBefore(named.now().minus(TODAY));
        return answer.verdict() == Verdict.NOT_CLEARED && today
                ? answer.with(alternatives.find(
                        viewer,
                        staff,
                        site,
                        answer,
                        question.atTheDoor(),
                        label(question, named),
                        named.models(),
                        named.tasks(),
                        loaded))
                : answer;
    }

    private Dossiers.Loaded load(Site site, Question question, AskedNames.Named named) {
        SetId set = question.set();
        ModelId model = question.model();
        return dossiers.load(
                site,
                new Dossiers.Wanted(
                        List.of(question.worker()),
                        List.of(question.task()),
                        set == null ? List.of() : List.of(set),
                        model == null ? Map.of() : Map.of(model, code(named.models(), model))),
                question.wear(),
                question.knownAt());
    }

    private static @Nullable String label(Question question, AskedNames.Named named) {
        return question.set() == null ? null : named.label();
    }

    /**
     * @param label of the set; none where a model is asked about
     * @param codes of the site's models
     */
    static Dossier dossier(
            Question question, @Nullable String label, Map<ModelId, String> codes, Dossiers.Loaded loaded) {
        SetId set = question.set();
        ModelId model = question.model();
        if (set != null) {
            SetData data = loaded.data(set);
            if (data == null) {
                throw new NotFound("set.unknownThen", label);
            }
            model = data.model();
        }
        if (model == null) {
            throw new IllegalStateException("a question asks about a set or a model");
        }
        return loaded.dossier(question.worker(), question.task(), set, label, model, code(codes, model));
    }

    private static String code(Map<ModelId, String> codes, ModelId model) {
        String code = codes.get(model);
        if (code == null) {
            throw new NotFound("model.unknown", model);
        }
        return code;
    }

    /** @throws NotFound {@code model.unknown} */
    static ModelId model(Map<ModelId, String> codes, String code) {
        for (Map.Entry<ModelId, String> model : codes.entrySet()) {
            if (model.getValue().equals(code)) {
                return model.getKey();
            }
        }
        throw new NotFound("model.unknown", code);
    }

    private static Question question(Viewer viewer, AskedNames.Named named, Asked asked) {
        if (!asked.from().isBefore(asked.until())) {
            throw new Refused("question.until.order", asked.from(), asked.until());
        }
        Instant now = named.now();
        Instant known = asked.knownAt() == null ? now : asked.knownAt();
        if (known.isAfter(now)) {
            throw new Refused("question.knownAt.future", known);
        }
        Interval wear = new Interval(asked.from(), asked.until());
        return thing(viewer, named, asked, wear, known).swapping(asked.swaps());
    }

    private static Question thing(Viewer viewer, AskedNames.Named named, Asked asked, Interval wear, Instant known) {
        TaskId task = named.task();
        WorkerId worker = named.worker().id();
        if (asked.set() != null && asked.model() != null) {
            throw new Refused("question.thing");
        }
        if (asked.set() != null) {
            return Question.ofSet(viewer.site(), worker, task, named.set(), wear, known);
        }
        if (asked.model() == null || asked.size() == null) {
            throw new Refused("question.thing");
        }
        return Question.ofModel(
                viewer.site(), worker, task, model(named.models(), asked.model()), asked.size(), wear, known);
    }

    private static Assessment.Staff staff(Viewer viewer, AskedNames.Person worker) {
        return viewer.employer() != null && viewer.employer().equals(worker.employer())
                ? Assessment.Staff.OWN
                : Assessment.Staff.OTHERS;
    }

    /** A worker sees only themself, an employer only its own staff; both look like somebody unknown. */
    private static void requireSight(Viewer viewer, AskedNames.Person worker, Assessment.Staff staff) {
        boolean sees = viewer.isSelf(worker.id())
                || viewer.isAny(
                        Role.OFFICER,
                        Role.SUPERVISOR,
                        Role.STOREKEEPER,
                        Role.HEALTH,
                        Role.TRAINER,
                        Role.HYGIENIST,
                        Role.ADMINISTRATOR)
                || (viewer.is(Role.EMPLOYER) && staff == Assessment.Staff.OWN);
        if (!sees) {
            throw new NotFound("worker.unknown", worker.number());
        }
    }
}
