package org.hoodkeeper.web.sheet;

import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Subject;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.StoredAnswers;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.reporting.TaskSheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;

/** Says to whoever told it what was recorded, when, and what is next. Nobody else sees it, and no note is read back. */
@Controller
class ToldController {

    private final History history;
    private final People people;
    private final Programme programme;
    private final Kit kit;
    private final Sheets sheets;
    private final TaskSheets tasks;
    private final StoredAnswers answers;
    private final AuditTrail audit;

    ToldController(
            History history,
            People people,
            Programme programme,
            Kit kit,
            Sheets sheets,
            TaskSheets tasks,
            StoredAnswers answers,
            AuditTrail audit) {
        this.history = history;
        this.people = people;
        this.programme = programme;
        this.kit = kit;
        this.sheets = sheets;
        this.tasks = tasks;
        this.answers = answers;
        this.audit = audit;
    }

    @Allowed(self = true)
    @GetMapping("/sites/{site}/told/{record}")
    String show(Visit visit, @PathVariable String record, Model model) {
        SiteId site = visit.viewer().site();
        History.Version version = history.find(site, Sheets.recordId(record), sheets.now());
        if (version == null || !version.toldBy().equals(visit.viewer().account())) {
            throw new NotFound("record.unknown", record);
        }
        model.addAttribute("version", version);
        model.addAttribute("told", version.told());
        model.addAttribute("by", visit.account().name());
        model.addAttribute("outcome", version.told().fact() instanceof FitTest test ? test.outcome() : null);
        model.addAttribute("answer", atGate(site, version));
        model.addAttribute(
                "mayRecord", visit.viewer().isAny(Role.OFFICER, Role.TRAINER, Role.HYGIENIST, Role.SUPERVISOR));
        model.addAttribute("health", visit.viewer().is(Role.HEALTH));
        about(site, version, model);
        model.addAttribute("sheets", judged(site, version));
        model.addAttribute("moves", visit.viewer().isAny(Role.OFFICER, Role.HYGIENIST));
        if (version.kind().subject() == Subject.WORKER) {
            audit.seen(visit.viewer(), new WorkerId(version.told().subject()), "told");
        }
        return "sheet/told";
    }

    /** The tasks whose air is judged by it, so that whoever told it can read what it did. */
    private List<String> judged(SiteId site, History.Version version) {
        return switch (version.kind()) {
            case EXPOSURE_RESULT, TASK_BASIS ->
                List.of(programme
                        .task(site, new TaskId(version.told().subject()))
                        .code());
            case LIMIT ->
                tasks.all(site, Moment.of(null, false, sheets.now())).stream()
                        .filter(sheet -> sheet.air().stream()
                                .anyMatch(part ->
                                        part.substance().equals(version.told().scope())))
                        .map(TaskSheet::task)
                        .toList();
            default -> List.of();
        };
    }

    /** Whoever let somebody in reads once more what the answer was. */
    private @Nullable Verdict atGate(SiteId site, History.Version version) {
        return version.told().fact() instanceof Wear wear && wear.step() == Wear.Step.ENTRY
                ? answers.atGate(site, version.told().id())
                : null;
    }

    private void about(SiteId site, History.Version version, Model model) {
        Worker worker = worker(site, version);
        if (worker != null) {
            model.addAttribute("person", new Person(worker.id(), worker.number(), worker.name()));
        }
        if (version.kind().subject() == Subject.TASK) {
            model.addAttribute(
                    "thing",
                    programme.task(site, new TaskId(version.told().subject())).code());
        } else if (version.kind().subject() == Subject.MODEL) {
            model.addAttribute(
                    "thing",
                    kit.model(site, new ModelId(version.told().subject())).code());
        }
    }

    /** Holds are placed on more than persons. */
    private @Nullable Worker worker(SiteId site, History.Version version) {
        boolean maybe =
                version.kind().subject() == Subject.WORKER || version.kind().subject() == Subject.ANY;
        if (!maybe) {
            return null;
        }
        try {
            return people.get(site, new WorkerId(version.told().subject()));
        } catch (NotFound other) {
            return null;
        }
    }
}
