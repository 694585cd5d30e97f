package org.hoodkeeper.web;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.support.RequestContextUtils;

/** Answers a mishap: a page in the reader's language, or under {@code /api/} a problem in the form of RFC 9457. */
@Component
class Mishaps {

    private final MessageSource messages;
    private final Surroundings surroundings;

    Mishaps(MessageSource messages, Surroundings surroundings) {
        this.messages = messages;
        this.surroundings = surroundings;
    }

    /**
     * @param askedPath the path that was asked for, without the context's
     * @param status the status to answer, which may be one the page has no words of its own for
     * @param code the refusal's code, for programs to read; null for none
     * @param detail a sentence that says more than the mishap's own, null for none
     */
    Object answer(
            HttpServletRequest request,
            String askedPath,
            HttpStatusCode status,
            @Nullable String code,
            @Nullable String detail,
            HttpHeaders headers) {
        Mishap mishap = Mishap.of(status);
        if (askedPath.startsWith("/api/") || askedPath.equals("/api")) {
            return problem(request, mishap, status, code, detail, headers);
        }
        surroundings.putAround(request);
        ModelAndView page = new ModelAndView("error", page(mishap, detail), status);
        return page;
    }

    private static Map<String, ?> page(Mishap mishap, @Nullable String detail) {
        return detail == null ? Map.of("mishap", mishap.name()) : Map.of("mishap", mishap.name(), "detail", detail);
    }

    private ResponseEntity<ProblemDetail> problem(
            HttpServletRequest request,
            Mishap mishap,
            HttpStatusCode status,
            @Nullable String code,
            @Nullable String detail,
            HttpHeaders headers) {
        Locale locale = RequestContextUtils.getLocale(request);
        ProblemDetail problem = ProblemDetail.forStatus(status);
        problem.setTitle(messages.getMessage("error." + mishap + ".title", null, locale));
        problem.setDetail(detail != null ? detail : messages.getMessage("error." + mishap + ".next", null, locale));
        if (code != null) {
            problem.setProperty("code", code);
        }
        return ResponseEntity.status(status)
                .headers(headers)
                .contentType(MediaType.APPLICATION_PROBLEM_JSON)
                .body(problem);
    }
}
