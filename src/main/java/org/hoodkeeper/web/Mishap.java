package org.hoodkeeper.web;

import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;

/** What went wrong with a request, in the terms the error page has words for. */
enum Mishap {
    NOT_UNDERSTOOD(HttpStatus.BAD_REQUEST),
    NOT_KNOWN(HttpStatus.UNAUTHORIZED),
    NOT_ALLOWED(HttpStatus.FORBIDDEN),
    NOT_FOUND(HttpStatus.NOT_FOUND),
    WRONG_WAY(HttpStatus.METHOD_NOT_ALLOWED),
    CHANGED_MEANWHILE(HttpStatus.CONFLICT),
    TOO_LARGE(HttpStatus.CONTENT_TOO_LARGE),
    REFUSED(HttpStatus.UNPROCESSABLE_CONTENT),
    TOO_MANY(HttpStatus.TOO_MANY_REQUESTS),
    BROKEN(HttpStatus.INTERNAL_SERVER_ERROR),
    NOT_READY(HttpStatus.SERVICE_UNAVAILABLE);

    private final HttpStatus status;

    Mishap(HttpStatus status) {
        this.status = status;
    }

    HttpStatus status() {
        return status;
    }

    /** Other statuses of a reader's making are "not understood", others of ours "broken". */
    static Mishap of(HttpStatusCode code) {
        for (Mishap mishap : values()) {
            if (mishap.status.value() == code.value()) {
                return mishap;
            }
        }
        return code.is4xxClientError() ? NOT_UNDERSTOOD : BROKEN;
    }
}
