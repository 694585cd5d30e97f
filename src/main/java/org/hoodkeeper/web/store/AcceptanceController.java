package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Acceptances;
import org.hoodkeeper.evidence.Examinations;
import org.hoodkeeper.evidence.FlowChecks;
import org.hoodkeeper.evidence.PartChanges;
import org.hoodkeeper.facts.Acceptance;
import org.hoodkeeper.facts.Acceptance.Point;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Indicators;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Show;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/**
 * Looks a delivered set over against its model: contents, approval, each part with lot, serial and day of manufacture, the first
 * flow, the label. A missing or unapproved part or a first flow below the minimum keeps it out of use.
 */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/acceptance")
class AcceptanceController {

    private static final String VIEW = "store/acceptance";

    private final Desk desk;
    private final Answers answers;
    private final Acceptances acceptances;
    private final PartChanges partChanges;
    private final FlowChecks flowChecks;
    private final Examinations examinations;
    private final Indicators indicators;
    private final Kit kit;
    private final Show show;
    private final SetHistory history;
    private final PlaceWords places;

    AcceptanceController(
            Desk desk,
            Answers answers,
            Acceptances acceptances,
            PartChanges partChanges,
            FlowChecks flowChecks,
            Examinations examinations,
            Indicators indicators,
            Kit kit,
            Show show,
            SetHistory history,
            PlaceWords places) {
        this.desk = desk;
        this.answers = answers;
        this.acceptances = acceptances;
        this.partChanges = partChanges;
        this.flowChecks = flowChecks;
        this.examinations = examinations;
        this.indicators = indicators;
        this.kit = kit;
        this.show = show;
        this.history = history;
        this.places = places;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("outcomes")
    List<Choice> outcomes() {
        return Choice.each("acceptance.answer.", Outcome.PASS, Outcome.FAIL);
    }

    @ModelAttribute("delivered")
    List<DeliveredPart> delivered(Visit visit, HttpServletRequest request, @ModelAttribute("set") ShelfSet set) {
        boolean isTyped = "POST".equals(request.getMethod());
        return isTyped
                ? DeliveredPart.typed(model(set), request)
                : DeliveredPart.onRecord(model(set), parts(visit, set));
    }

    @ModelAttribute("instruments")
    List<Choice> instruments(Visit visit, @ModelAttribute("set") ShelfSet set) {
        return indicators.valid(visit.viewer().site(), set.modelData(), desk.now()).stream()
                .map(one -> Choice.named(one.code(), one.code()))
                .toList();
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model page) {
        page.addAttribute("acceptance", AcceptanceForm.empty());
        return VIEW;
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @ModelAttribute("delivered") List<DeliveredPart> delivered,
            @Valid @ModelAttribute("acceptance") AcceptanceForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "acceptance",
                        VIEW,
                        () -> check(visit, set, delivered, form),
                        () -> record(visit, set, delivered, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, List<DeliveredPart> delivered, AcceptanceForm form) {
        Map<Point, Outcome> points = points(visit, set, delivered, form);
        Answers.Lines lines = answers.of("acceptance").text("delivery", form.delivery());
        points.forEach((point, outcome) -> {
            if (outcome == Outcome.FAIL && point == Point.PARTS) {
                lines.decides("point." + point, "barred", "acceptance.parts.wrong", places.of(wrong(delivered)));
            } else if (outcome == Outcome.FAIL && point == Point.FIRST_FLOW) {
                low(visit, set, lines, form);
            } else {
                lines.answered(
                        "acceptance.point." + point,
                        outcome == Outcome.PASS ? "clear" : "barred",
                        "acceptance.answer." + outcome);
            }
        });
        boolean accepted = !points.containsValue(Outcome.FAIL);
        return lines.figure("reading", form.reading(), "L/min")
                .text("examiner", form.examiner())
                .text("note", form.note())
                .decides("result", accepted ? "clear" : "barred", "acceptance.result." + (accepted ? "YES" : "NO"))
                .at(form, visit);
    }

    /** The places whose part is missing or not allowed there. */
    private static List<String> wrong(List<DeliveredPart> delivered) {
        return delivered.stream()
                .filter(part -> !part.isThere() || !part.isApproved())
                .map(DeliveredPart::slot)
                .toList();
    }

    private void low(Visit visit, ShelfSet set, Answers.Lines lines, AcceptanceForm form) {
        FlowCheck first = firstFlow(visit, set, form);
        if (first.corrected() == null || first.minimum() == null) {
            lines.answered("acceptance.point.FIRST_FLOW", "barred", "acceptance.answer.FAIL");
        } else {
            lines.decides(
                    "point.FIRST_FLOW",
                    "barred",
                    "acceptance.flow.low",
                    show.figure(first.corrected(), "L/min"),
                    show.figure(first.minimum(), "L/min"));
        }
    }

    private RecordId record(Visit visit, ShelfSet set, List<DeliveredPart> delivered, AcceptanceForm form) {
        Author author = Author.at(visit.viewer());
        Instant at = form.instant(visit.zone(), desk.now());
        Map<Point, Outcome> points = points(visit, set, delivered, form);
        RecordId recorded =
                acceptances.record(author, set.id(), new Acceptance(points, form.delivery(), form.note()), at);
        Map<String, PartChange> before = parts(visit, set);
        for (DeliveredPart part : delivered) {
            // what an earlier look found is not fitted again
            if (part.isThere() && !part.isStill(before.get(part.slot()))) {
                partChanges.delivered(author, set.id(), part.slot(), part.fitted(), at);
            }
        }
        InstrumentId instrument = null;
        FlowChecks.Reading reading = reading(visit, form);
        if (reading != null) {
            instrument = reading.instrument();
            flowChecks.record(author, set.id(), reading, at, null);
        }
        if (!points.containsValue(Outcome.FAIL)) {
            Examination first = new Examination(Outcome.PASS, form.reading(), instrument, form.examiner(), form.note());
            examinations.record(author, set.id(), first, at, null);
        }
        return recorded;
    }

    private Map<String, PartChange> parts(Visit visit, ShelfSet set) {
        return history.parts(history.versions(visit, set.id()));
    }

    private Map<Point, Outcome> points(Visit visit, ShelfSet set, List<DeliveredPart> delivered, AcceptanceForm form) {
        Map<Point, Outcome> points = new EnumMap<>(Point.class);
        put(points, Point.CONTENTS, form.contents());
        put(points, Point.INSTRUCTIONS, form.instructions());
        put(points, Point.UNDAMAGED, form.undamaged());
        put(points, Point.APPROVAL, form.approval());
        put(points, Point.BATTERY, form.battery());
        put(points, Point.ALARMS, form.alarms());
        put(points, Point.LABEL, form.labelled());
        points.put(Point.PARTS, wrong(delivered).isEmpty() ? Outcome.PASS : Outcome.FAIL);
        if (model(set).type().hasFlow()) {
            points.put(Point.FIRST_FLOW, firstFlow(visit, set, form).outcome());
        }
        if (model(set).type().hasBlower() && (form.battery() == null || form.alarms() == null)) {
            throw new Refused(form.battery() == null ? "acceptance.battery.missing" : "acceptance.alarms.missing");
        }
        return points;
    }

    /** @throws Refused {@code acceptance.reading.missing} when nothing was measured: unknown is not good enough */
    private FlowCheck firstFlow(Visit visit, ShelfSet set, AcceptanceForm form) {
        FlowChecks.Reading reading = reading(visit, form);
        if (reading == null) {
            throw new Refused("acceptance.reading.missing");
        }
        return flowChecks.judge(visit.viewer().site(), set.id(), reading, form.instant(visit.zone(), desk.now()));
    }

    private FlowChecks.@Nullable Reading reading(Visit visit, AcceptanceForm form) {
        if (form.instrument() == null || form.instrument().isBlank() || form.reading() == null) {
            return null;
        }
        InstrumentId instrument =
                kit.instrument(visit.viewer().site(), form.instrument()).id();
        return new FlowChecks.Reading(form.reading(), instrument, form.celsius(), form.pressure());
    }

    private static void put(Map<Point, Outcome> points, Point point, @Nullable Outcome outcome) {
        if (outcome != null) {
            points.put(point, outcome);
        }
    }

    private static ModelData model(ShelfSet set) {
        ModelData model = set.modelData();
        if (model == null) {
            throw new NotFound("set.unknown", set.label());
        }
        return model;
    }
}
