package org.hoodkeeper.web;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Positive;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.LocalTimes;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.autoconfigure.ImportAutoConfiguration;
import org.springframework.boot.http.converter.autoconfigure.HttpMessageConvertersAutoConfiguration;
import org.springframework.boot.jackson.autoconfigure.JacksonAutoConfiguration;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.boot.thymeleaf.autoconfigure.ThymeleafAutoConfiguration;
import org.springframework.boot.validation.autoconfigure.ValidationAutoConfiguration;
import org.springframework.boot.webmvc.autoconfigure.DispatcherServletAutoConfiguration;
import org.springframework.boot.webmvc.autoconfigure.WebMvcAutoConfiguration;
import org.springframework.boot.webmvc.autoconfigure.error.ErrorMvcAutoConfiguration;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Import;
import org.springframework.dao.OptimisticLockingFailureException;
import org.springframework.stereotype.Controller;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MaxUploadSizeExceededException;

/** Two pages that show every fragment, for tests and for looking at. */
// a plain configuration, else the whole service would be added; and kept out of every other test's scan
@TestComponent
@Configuration(proxyBeanMethods = false)
@ImportAutoConfiguration({
    DispatcherServletAutoConfiguration.class,
    WebMvcAutoConfiguration.class,
    ErrorMvcAutoConfiguration.class,
    ThymeleafAutoConfiguration.class,
    ValidationAutoConfiguration.class,
    JacksonAutoConfiguration.class,
    HttpMessageConvertersAutoConfiguration.class
})
@Import({
    MessageFiles.class,
    LanguageSettings.class,
    TypedText.class,
    TypedText.Strip.class,
    AroundPages.class,
    FormChecks.class,
    Here.class,
    Surroundings.class,
    Refusals.class,
    Mishaps.class,
    MishapAdvice.class,
    ErrorPages.class,
    Show.class,
    Words.class,
    LookPages.Pages.class
})
class LookPages {

    static final ZoneId LONDON = ZoneId.of("Europe/London");

    @Bean
    Caller caller() {
        return request -> request.getParameter("nobody") != null
                ? Optional.empty()
                : Optional.of(new SignedIn(
                        "Maren Oduya",
                        new AtSite(
                                new Viewer(
                                        new SiteId(new UUID(0, 1)),
                                        new AccountId(new UUID(0, 2)),
                                        Set.of(Role.OFFICER, Role.STOREKEEPER),
                                        null,
                                        null),
                                "quarry-bank",
                                "Quarry Bank",
                                LONDON)));
    }

    enum Answer {
        CLEARED,
        CLEARED_WITH_CONDITIONS,
        NOT_CLEARED
    }

    record Row(String name, Answer verdict, String ends) {}

    record FlowForm(
            @NotBlank @Nullable String label,
            @NotNull @Positive @Nullable BigDecimal litresPerMinute,
            @Nullable Integer turns,
            @Nullable LocalDate on,
            @Nullable LocalDateTime at,
            @Nullable Occurrence atOccurrence,
            @NotNull @Nullable String floats,
            @Nullable String instrument,
            @Nullable String remark,
            boolean seen,
            @Nullable List<String> parts,
            @Nullable String oldPassword) {

        static FlowForm empty() {
            return new FlowForm(null, null, null, null, null, null, null, null, null, false, null, null);
        }
    }

    @Controller
    static class Pages {

        private final Refusals refusals;

        Pages(Refusals refusals) {
            this.refusals = refusals;
        }

        @ModelAttribute("title")
        String title() {
            return "Flow check of set S-098";
        }

        @ModelAttribute("sentence")
        String sentence() {
            return "You may do block splitting today with set S-098 until 14:00. It ends then because the battery does.";
        }

        @ModelAttribute("choices")
        List<Choice> choices() {
            return List.of(
                    Choice.named("LEVEL", "Level with the mark, or above"),
                    Choice.named("BELOW", "Below the mark"),
                    Choice.said("NONE", "verdict.result.UNKNOWN", "verdict.noEnd"));
        }

        @ModelAttribute("labels")
        Map<String, String> labels() {
            return Map.of(
                            "label", "Label of the set",
                            "hint", "As printed under the code, for example S-098-K",
                            "flow", "Flow with the meter upright",
                            "turns", "Turns of the screw",
                            "on", "Day of the last wash",
                            "at", "When it was done",
                            "floats", "Where does the float stand?",
                            "remark", "Anything the next person should know",
                            "seen", "I looked at every part",
                            "button", "Record flow check")
                    .entrySet()
                    .stream()
                    .collect(
                            () -> new java.util.HashMap<>(Map.of(
                                    "instrument", "Instrument", "parts", "Parts looked at", "secret", "Password")),
                            (all, one) -> all.put(one.getKey(), one.getValue()),
                            Map::putAll);
        }

        @GetMapping("/look/answer")
        String answer(@RequestParam(defaultValue = "CLEARED") Answer verdict, Model model) {
            model.addAttribute("verdict", verdict);
            model.addAttribute("due", "30 Nov 2026");
            model.addAttribute("caption", "As known on 1 Dec 2026, 06:00");
            model.addAttribute("total", 1250);
            model.addAttribute(
                    "sort", SortLink.of("sort=worker&page=3", "worker", "verdict.column.requirement", "worker"));
            model.addAttribute(
                    "rows",
                    List.of(
                            new Row("Ada Quill", Answer.CLEARED, "30 Nov 2026"),
                            new Row("Bo <Lind>", Answer.CLEARED_WITH_CONDITIONS, "4 Jan 2027"),
                            new Row("Cal Ode", Answer.NOT_CLEARED, "2 Dec 2026")));
            model.addAttribute(
                    "lines",
                    List.of(
                            new ReasonLine(
                                    "MET",
                                    "Training for this model",
                                    "Trained on 30 Nov 2025, good for one year",
                                    "Training of 30 Nov 2025",
                                    "/records/1",
                                    "29 CFR 1910.134(k)(5)",
                                    "until the end of 30 Nov 2026",
                                    null),
                            new ReasonLine(
                                    "MET_WITH_CONDITIONS",
                                    "Heat",
                                    "Two hours of wear at most, then a rest",
                                    null,
                                    null,
                                    "site decision of 3 Mar 2026",
                                    null,
                                    null),
                            new ReasonLine(
                                    "NOT_MET",
                                    "Flow proven",
                                    "165 L/min on 28 Nov 2026 is below the model’s 175 L/min",
                                    "Flow check of 28 Nov 2026",
                                    null,
                                    null,
                                    null,
                                    "A storekeeper repairs the set and checks the flow again"),
                            new ReasonLine("UNKNOWN", "Air test", "No test is on record", null, null, null, null, null),
                            new ReasonLine(
                                    "NOT_APPLICABLE",
                                    "Fit test",
                                    "A loose hood has no seal",
                                    null,
                                    null,
                                    null,
                                    null,
                                    null),
                            new ReasonLine(
                                    "TO_DO_AT_START",
                                    "Check before use",
                                    "You do it when you put it on",
                                    null,
                                    null,
                                    null,
                                    null,
                                    null)));
            return "look/answer";
        }

        @GetMapping("/look/form")
        String form(Model model) {
            model.addAttribute("form", FlowForm.empty());
            return "look/form";
        }

        @PostMapping("/look/form")
        String record(@Valid @ModelAttribute("form") FlowForm form, BindingResult shape) {
            if (shape.hasErrors()) {
                return "look/form";
            }
            try {
                store(form);
            } catch (Refused refused) {
                if (refused.code().startsWith("time.")) {
                    refusals.show(refused, shape, "at");
                } else {
                    refusals.show(refused, shape);
                }
                return "look/form";
            }
            String taken = Stream.of(
                            form.label(),
                            form.litresPerMinute(),
                            form.turns(),
                            form.on(),
                            form.at(),
                            form.floats(),
                            form.oldPassword())
                    .map(String::valueOf)
                    .collect(Collectors.joining(","));
            return "redirect:/look/form?taken=" + taken;
        }

        void store(FlowForm form) {
            switch (form.label()) {
                case "REFUSE-ALL" ->
                    throw new Refused("validity.order", LocalDate.of(2026, 11, 30), LocalDate.of(2026, 11, 1));
                case "REFUSE-FIELD" -> throw new Refused("look.at.order", 1, 2);
                case "TIME" -> LocalTimes.instantOf(form.at(), LONDON, form.atOccurrence());
                default -> {}
            }
        }

        @GetMapping("/look/sets/{id}")
        String set(@PathVariable SetId id) {
            throw new NotFound("interval.order", 1, 2);
        }

        @GetMapping({"/look/refused", "/api/look/refused"})
        String refused() {
            throw new Refused("validity.order", LocalDate.of(2026, 11, 30), LocalDate.of(2026, 11, 1));
        }

        @GetMapping("/look/needs")
        String needs(@RequestParam LocalDate on) {
            return "look/form";
        }

        @GetMapping("/look/race")
        String race() {
            throw new OptimisticLockingFailureException("lost");
        }

        @GetMapping("/look/unreachable")
        String unreachable() {
            throw new CannotCreateTransactionException("gone");
        }

        @GetMapping("/look/large")
        String large() {
            throw new MaxUploadSizeExceededException(10);
        }
    }
}
