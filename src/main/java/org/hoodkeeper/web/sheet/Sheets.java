package org.hoodkeeper.web.sheet;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.OnceOnly;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.store.NotCleared;
import org.hoodkeeper.web.Refusals;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import org.springframework.validation.BindingResult;
import org.springframework.web.servlet.ModelAndView;

/**
 * How a form goes: fields, then a page to look the answers over, then the record, once, and on to the page that says what was
 * told. The page in between carries what was typed in hidden fields, so that going back loses nothing and no step needs script
 * or session. It is shown only for what would be recorded: the record is made and taken back, so that every refusal comes
 * before a person says yes.
 */
@Component
public class Sheets {

    private static final String CHECK = "sheet/check";
    private static final Set<String> OF_TIME = Set.of("ledger.future", "custody.later", "record.at.range");
    private static final Set<String> AROUND = Set.of("_csrf", "formKey", "step");

    private final OnceOnly onceOnly;
    private final Refusals refusals;
    private final KnowledgeClock clock;
    private final Answered answered;
    private final TransactionTemplate trial;

    Sheets(
            OnceOnly onceOnly,
            Refusals refusals,
            KnowledgeClock clock,
            Answered answered,
            PlatformTransactionManager transactions) {
        this.onceOnly = onceOnly;
        this.refusals = refusals;
        this.clock = clock;
        this.answered = answered;
        this.trial = new TransactionTemplate(transactions);
    }

    /** The time at which the page is made, by the clock that stamps what is told. */
    public Instant now() {
        return clock.now();
    }

    /** One typed value of a hidden field. */
    public record Typed(String name, String value) {}

    /** @param form what was typed; {@code typed} holds what was wrong with its shape */
    public ModelAndView take(Visit visit, HttpServletRequest request, Record form, BindingResult typed, Sheet sheet) {
        return take(visit, request, form, typed, sheet, told -> "/sites/" + visit.siteCode() + "/told/" + told);
    }

    /** @param onward the address that says what happened, by the id of what was recorded */
    public ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            Record form,
            BindingResult typed,
            Sheet sheet,
            Function<String, String> onward) {
        Way way = new Way(
                sheet.name(),
                sheet.view(),
                CHECK,
                () -> lines(visit, form, sheet),
                sheet.record(),
                sheet.turns(),
                onward);
        return take(visit, request, typed, way);
    }

    /** The answers of a form in words, without its time. */
    List<Line> said(Visit visit, String name, Record answers) {
        return answered.lines(name, answers, visit.zone(), now()).stream()
                .filter(line -> !line.key().equals(name + ".at"))
                .toList();
    }

    private List<Line> lines(Visit visit, Record form, Sheet sheet) {
        List<Line> lines = new ArrayList<>(answered.lines(sheet.name(), form, visit.zone(), now()));
        lines.addAll(sheet.follows().get());
        return lines;
    }

    /**
     * For a form that puts its answers into words itself, or says elsewhere what happened.
     *
     * @throws NotCleared as the engine says of an issue: it has a page of its own, with every reason
     */
    public ModelAndView take(Visit visit, HttpServletRequest request, BindingResult typed, Way way) {
        String step = request.getParameter("step");
        if ("change".equals(step)) {
            return new ModelAndView(way.view());
        }
        if (typed.hasErrors()) {
            return new ModelAndView(way.view(), HttpStatus.UNPROCESSABLE_CONTENT);
        }
        try {
            return "record".equals(step) ? record(visit, request, way) : check(request, way);
        } catch (NotCleared no) {
            throw no;
        } catch (Refused refused) {
            show(refused, typed);
            return new ModelAndView(way.view(), HttpStatus.UNPROCESSABLE_CONTENT);
        }
    }

    /** Refusals of the time stand beside the time. */
    private void show(Refused refused, BindingResult typed) {
        boolean ofTime = refused.code().startsWith("time.") || OF_TIME.contains(refused.code());
        if (ofTime && typed.getTarget() instanceof Timed) {
            refusals.show(refused, typed, "at");
        } else {
            refusals.show(refused, typed);
        }
    }

    private ModelAndView check(HttpServletRequest request, Way way) {
        List<String> turns = trial.execute(status -> {
            status.setRollbackOnly();
            Objects.requireNonNull(way.record().get(), "a form records something");
            return way.turns().get();
        });
        ModelAndView page = new ModelAndView(way.check());
        page.addObject("turns", turns);
        page.addObject("lines", way.lines().get());
        page.addObject("typed", typed(request));
        page.addObject("sheet", way.name());
        page.addObject("action", request.getRequestURI());
        return page;
    }

    private ModelAndView record(Visit visit, HttpServletRequest request, Way way) {
        String key = request.getParameter("formKey");
        OnceOnly.Done done = onceOnly.once(
                visit.viewer(),
                way.name(),
                key == null ? "" : key,
                content(request),
                () -> way.record().get().toString());
        return new ModelAndView("redirect:" + way.onward().apply(done.value()));
    }

    /** @throws NotFound {@code record.unknown} when the text names no record */
    public static RecordId recordId(String text) {
        try {
            return RecordId.of(text);
        } catch (IllegalArgumentException notAnId) {
            throw new NotFound("record.unknown", text);
        }
    }

    private static List<String> content(HttpServletRequest request) {
        List<String> content = new ArrayList<>();
        content.add(request.getRequestURI());
        typed(request).forEach(field -> content.add(field.name() + "=" + field.value()));
        return content;
    }

    private static List<Typed> typed(HttpServletRequest request) {
        Map<String, String[]> sorted = new TreeMap<>(request.getParameterMap());
        return sorted.entrySet().stream()
                .filter(field ->
                        !AROUND.contains(field.getKey()) && !field.getKey().startsWith("_"))
                .flatMap(field -> Arrays.stream(field.getValue()).map(value -> new Typed(field.getKey(), value)))
                .toList();
    }
}
