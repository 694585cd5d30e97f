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
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.KitSet;
import org.hoodkeeper.kit.Model;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
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
    private final People people;
    private final Kit kit;
    private final Programme programme;
    private final Dossiers dossiers;
    private final Alternatives alternatives;
    private final KnowledgeClock clock;

    Questions(
            SiteRegister sites,
            People people,
            Kit kit,
            Programme programme,
            Dossiers dossiers,
            Alternatives alternatives,
            KnowledgeClock clock) {
        this.sites = sites;
        this.people = people;
        this.kit = kit;
        this.programme = programme;
        this.dossiers = dossiers;
        this.alternatives = alternatives;
        this.clock = clock;
    }

    /**
     * The answer as this reader may see it.
     *
     * @throws NotFound a name, code or label that is not on this site; a worker who is not the reader's to see
     * @throws Refused {@code question.*} when the question makes no sense
     */
    public Answer ask(Viewer viewer, Asked asked) {
        Instant now = clock.now();
        Worker worker = people.byNumber(viewer.site(), asked.worker());
        Assessment.Staff staff = staff(viewer, worker);
        requireSight(viewer, worker, staff);
        return ask(viewer, staff, question(viewer, worker, asked, now), now);
    }

    /** The same with ids, for pages that have them. */
    public Answer ask(Viewer viewer, Question question) {
        Worker worker = people.get(viewer.site(), question.worker());
        Assessment.Staff staff = staff(viewer, worker);
        requireSight(viewer, worker, staff);
        return ask(viewer, staff, question, clock.now());
    }

    /** Everything, for decisions of the service itself: nobody reads it but through {@link #ask}. */
    public Answer whole(Question question) {
        Site site = sites.get(question.site());
        return Assessment.judge(question, dossier(site, question));
    }

    /** As {@link #whole}; none where the site had not been told of the set by then, so that nobody could be cleared with it. */
    public @Nullable Answer wholeIfTold(Question question) {
        try {
            return Assessment.judge(question, dossier(sites.get(question.site()), question));
        } catch (NotFound notToldYet) {
            return null;
        }
    }

    private Answer ask(Viewer viewer, Assessment.Staff staff, Question question, Instant now) {
        Site site = sites.get(viewer.site());
        Answer answer = Assessment.judgeFor(viewer, staff, question, dossier(site, question));
        boolean today = !question.wear().from().isBefore(now.minus(TODAY));
        return answer.verdict() == Verdict.NOT_CLEARED && today
                ? answer.with(alternatives.find(viewer, staff, site, question.atTheDoor()))
                : answer;
    }

    private Dossier dossier(Site site, Question question) {
        SetId set = question.set();
        if (set == null) {
            return dossierOfModel(site, question);
        }
        Dossiers.Loaded loaded = load(site, question, List.of(set), Map.of());
        KitSet labelled = kit.set(site.id(), set);
        SetData data = loaded.data(set);
        if (data == null) {
            throw new NotFound("set.unknownThen", labelled.label());
        }
        Model model = kit.model(site.id(), data.model());
        return loaded.dossier(question.worker(), question.task(), set, labelled.label(), model.id(), model.code());
    }

    private Dossier dossierOfModel(Site site, Question question) {
        ModelId id = question.model();
        if (id == null) {
            throw new IllegalStateException("a question asks about a set or a model");
        }
        Model model = kit.model(site.id(), id);
        return load(site, question, List.of(), Map.of(id, model.code()))
                .dossier(question.worker(), question.task(), null, null, id, model.code());
    }

    private Dossiers.Loaded load(Site site, Question question, List<SetId> sets, Map<ModelId, String> models) {
        return dossiers.load(
                site,
                new Dossiers.Wanted(List.of(question.worker()), List.of(question.task()), sets, models),
                question.wear(),
                question.knownAt());
    }

    private Question question(Viewer viewer, Worker worker, Asked asked, Instant now) {
        if (!asked.from().isBefore(asked.until())) {
            throw new Refused("question.until.order", asked.from(), asked.until());
        }
        Instant known = asked.knownAt() == null ? now : asked.knownAt();
        if (known.isAfter(now)) {
            throw new Refused("question.knownAt.future", known);
        }
        Interval wear = new Interval(asked.from(), asked.until());
        TaskId task = programme.task(viewer.site(), asked.task()).id();
        return thing(viewer, worker.id(), task, asked, wear, known).swapping(asked.swaps());
    }

    private Question thing(Viewer viewer, WorkerId worker, TaskId task, Asked asked, Interval wear, Instant known) {
        if (asked.set() != null && asked.model() != null) {
            throw new Refused("question.thing");
        }
        if (asked.set() != null) {
            return Question.ofSet(
                    viewer.site(),
                    worker,
                    task,
                    kit.set(viewer.site(), asked.set()).id(),
                    wear,
                    known);
        }
        if (asked.model() == null || asked.size() == null) {
            throw new Refused("question.thing");
        }
        Model model = kit.model(viewer.site(), asked.model());
        return Question.ofModel(viewer.site(), worker, task, model.id(), asked.size(), wear, known);
    }

    private static Assessment.Staff staff(Viewer viewer, Worker worker) {
        return viewer.employer() != null && viewer.employer().equals(worker.employer())
                ? Assessment.Staff.OWN
                : Assessment.Staff.OTHERS;
    }

    /** A worker sees only themself, an employer only its own staff; both look like somebody unknown. */
    private static void requireSight(Viewer viewer, Worker worker, Assessment.Staff staff) {
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
