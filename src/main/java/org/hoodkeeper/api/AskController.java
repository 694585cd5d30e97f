package org.hoodkeeper.api;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.reporting.Asked;
import org.hoodkeeper.reporting.Questions;
import org.jspecify.annotations.Nullable;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** The question over HTTP: the whole question is the address, so that it can be kept and asked again. */
@RestController
class AskController {

    private final Questions questions;
    private final AnswerJson json;
    private final AuditTrail audit;
    /** An answer and the note of it at one state of the record, with one commit. */
    private final TransactionTemplate once;

    AskController(Questions questions, AnswerJson json, AuditTrail audit, PlatformTransactionManager transactions) {
        this.questions = questions;
        this.json = json;
        this.audit = audit;
        this.once = new TransactionTemplate(transactions);
        this.once.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
    }

    @GetMapping(value = "/api/sites/{site}/ask", produces = "application/json")
    @Allowed(
            value = {
                Role.OFFICER,
                Role.SUPERVISOR,
                Role.STOREKEEPER,
                Role.HEALTH,
                Role.TRAINER,
                Role.HYGIENIST,
                Role.EMPLOYER
            },
            self = true)
    AnswerJson.Body ask(Viewer viewer, Form form) {
        if (form.asOf() != null) {
            throw new Refused("question.asOf");
        }
        String knownAt = blankAsNone(form.knownAt());
        Asked asked = new Asked(
                given("worker", form.worker()),
                given("task", form.task()),
                blankAsNone(form.set()),
                blankAsNone(form.model()),
                blankAsNone(form.size()),
                instant("from", given("from", form.from())),
                instant("until", given("until", form.until())),
                knownAt == null ? null : instant("knownAt", knownAt),
                form.swap() == null
                        ? List.of()
                        : form.swap().stream()
                                .map(text -> instant("swap", text))
                                .toList());
        return json.body(viewer, asked, Objects.requireNonNull(once.execute(status -> {
            Answer answer = questions.ask(viewer, asked);
            audit.seen(viewer, answer.question().worker(), "ask");
            return answer;
        })));
    }

    /** The question's fields as they were typed. */
    record Form(
            @Nullable String worker,
            @Nullable String task,
            @Nullable String set,
            @Nullable String model,
            @Nullable String size,
            @Nullable String from,
            @Nullable String until,
            @Nullable String knownAt,
            @Nullable List<String> swap,
            @Nullable String asOf) {}

    /** The same in sentences, the verdict's word first. */
    @GetMapping(value = "/api/sites/{site}/ask", produces = "text/plain;charset=UTF-8")
    @Allowed(
            value = {
                Role.OFFICER,
                Role.SUPERVISOR,
                Role.STOREKEEPER,
                Role.HEALTH,
                Role.TRAINER,
                Role.HYGIENIST,
                Role.EMPLOYER
            },
            self = true)
    String say(Viewer viewer, Form form) {
        return json.sentences(ask(viewer, form));
    }

    private static String given(String field, @Nullable String value) {
        if (value == null || value.isBlank()) {
            throw new Refused("question.missing", field);
        }
        return value.strip();
    }

    private static @Nullable String blankAsNone(@Nullable String value) {
        return value == null || value.isBlank() ? null : value.strip();
    }

    /** An instant with its offset: a local time may happen twice. A space stands for the plus sign that some clients lose. */
    private static Instant instant(String field, String text) {
        try {
            OffsetDateTime at = OffsetDateTime.parse(text.replace(' ', '+'));
            if (at.getYear() < 1 || at.getYear() > 9_999) {
                throw new Refused("question.instant", field, text);
            }
            return at.toInstant();
        } catch (DateTimeException unreadable) {
            throw new Refused("question.instant", field, text);
        }
    }
}
