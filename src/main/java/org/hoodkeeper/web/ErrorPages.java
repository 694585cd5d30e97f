package org.hoodkeeper.web;

import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import org.hoodkeeper.access.Public;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatusCode;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.RequestMapping;

/** Answers what the container, the access rules or a fault of ours stopped. Never shows what the fault was. */
@Controller
class ErrorPages implements ErrorController {

    private final Mishaps mishaps;

    ErrorPages(Mishaps mishaps) {
        this.mishaps = mishaps;
    }

    @Public
    @RequestMapping("/error")
    Object stopped(HttpServletRequest request) {
        String asked = request.getAttribute(RequestDispatcher.ERROR_REQUEST_URI) instanceof String path ? path : "";
        // asked for by name, nothing was stopped: there is no such page
        int status = request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE) instanceof Integer code ? code : 404;
        return mishaps.answer(
                request, within(request, asked), HttpStatusCode.valueOf(status), null, null, HttpHeaders.EMPTY);
    }

    private static String within(HttpServletRequest request, String asked) {
        String context = request.getContextPath();
        return asked.startsWith(context) ? asked.substring(context.length()) : asked;
    }
}
