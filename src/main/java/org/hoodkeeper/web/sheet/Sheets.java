package org.hoodkeeper.web.sheet;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.OnceOnly;
import org.hoodkeeper.reporting.KnowledgeClock;
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
    record Typed(String name, String value) {}

    /** @param form what was typed; {@code typed} holds what was wrong with its shape */
    public ModelAndView take(Visit visit, HttpServletRequest request, Record form, BindingResult typed, Sheet sheet) {
        String step = request.getParameter("step");
        if ("change".equals(step)) {
            return new ModelAndView(sheet.view());
        }
        if (typed.hasErrors()) {
            return new ModelAndView(sheet.view(), HttpStatus.UNPROCESSABLE_CONTENT);
        }
        try {
            return "record".equals(step) ? record(visit, request, sheet) : check(visit, request, form, sheet);
        } catch (Refused refused) {
            show(refused, form, typed);
            return new ModelAndView(sheet.view(), HttpStatus.UNPROCESSABLE_CONTENT);
        }
    }

    /** Refusals of the time stand beside the time. */
    private void show(Refused refused, Record form, BindingResult typed) {
        boolean ofTime = refused.code().startsWith("time.") || refused.code().equals("ledger.future");
        if (ofTime && form instanceof Timed) {
            refusals.show(refused, typed, "at");
        } else {
            refusals.show(refused, typed);
        }
    }

    private ModelAndView check(Visit visit, HttpServletRequest request, Record form, Sheet sheet) {
        trial.execute(status -> {
            status.setRollbackOnly();
            return sheet.record().get();
        });
        List<Line> lines = new ArrayList<>(answered.lines(sheet.name(), form, visit.zone(), now()));
        lines.addAll(sheet.follows().get());
        ModelAndView page = new ModelAndView(CHECK);
        page.addObject("lines", lines);
        page.addObject("typed", typed(request));
        page.addObject("sheet", sheet.name());
        page.addObject("action", request.getRequestURI());
        return page;
    }

    private ModelAndView record(Visit visit, HttpServletRequest request, Sheet sheet) {
        String key = request.getParameter("formKey");
        OnceOnly.Done done = onceOnly.once(
                visit.viewer(),
                sheet.name(),
                key == null ? "" : key,
                content(request),
                () -> sheet.record().get().toString());
        return new ModelAndView("redirect:/sites/" + visit.siteCode() + "/told/" + done.value());
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
