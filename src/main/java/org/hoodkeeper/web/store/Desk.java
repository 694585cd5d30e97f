package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.OnceOnly;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.NotCleared;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Component;
import org.springframework.validation.BindingResult;
import org.springframework.web.servlet.ModelAndView;

/**
 * How every form of the store goes: fields, then a page to look the answers over, then the record, once, and on to the page that
 * says what happened. The check page carries what was typed in hidden fields, so that going back loses nothing and no step needs
 * script or session.
 */
@Component
class Desk {

    private static final String CHECK = "store/check";
    private static final Set<String> AROUND = Set.of("_csrf", "formKey", "step");

    private static final Set<String> OF_TIME = Set.of("ledger.future", "custody.later", "record.at.range");

    private final Bench bench;
    private final OnceOnly onceOnly;
    private final Refusals refusals;
    private final KnowledgeClock clock;
    private final Show show;

    Desk(Bench bench, OnceOnly onceOnly, Refusals refusals, KnowledgeClock clock, Show show) {
        this.bench = bench;
        this.onceOnly = onceOnly;
        this.refusals = refusals;
        this.clock = clock;
        this.show = show;
    }

    /** The time at which the page is made, by the clock that stamps what is told. */
    Instant now() {
        return clock.now();
    }

    /** @throws org.hoodkeeper.kernel.NotFound {@code set.unknown} */
    ShelfSet set(Visit visit, String label) {
        return bench.one(visit.viewer().site(), label, now());
    }

    /** One typed value of a hidden field. */
    record Typed(String name, String value) {}

    /** @throws NotCleared as the engine says of an issue */
    ModelAndView take(Visit visit, HttpServletRequest request, BindingResult typed, Sheet sheet) {
        String step = request.getParameter("step");
        if ("change".equals(step)) {
            return new ModelAndView(sheet.view());
        }
        if (typed.hasErrors()) {
            return refused(sheet);
        }
        try {
            return "record".equals(step) ? record(visit, request, sheet) : check(request, sheet);
        } catch (NotCleared no) {
            // has a page of its own, with every reason
            throw no;
        } catch (Refused refused) {
            show(refused, typed);
            return refused(sheet);
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

    private static ModelAndView refused(Sheet sheet) {
        return new ModelAndView(sheet.view(), HttpStatus.UNPROCESSABLE_CONTENT);
    }

    private ModelAndView check(HttpServletRequest request, Sheet sheet) {
        ModelAndView page = new ModelAndView(CHECK);
        page.addObject("lines", sheet.check().get());
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
        return new ModelAndView("redirect:" + sheet.onward() + "?done=" + done.value());
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

    /** The time in the reader's words; "now" where nothing was typed is the time of recording. */
    @Nullable String when(Timed form, ZoneId zone) {
        LocalDateTime at = form.at();
        return at == null ? null : show.instant(form.instant(zone, now()), zone);
    }
}
