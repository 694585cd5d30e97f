package org.hoodkeeper.web;

import jakarta.servlet.http.HttpServletRequest;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Component;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.context.request.ServletRequestAttributes;

/** Who reads the page being made and on which site; asked for once a request. */
@Component
public class Here {

    private static final String ASKED = Here.class.getName();

    private final ObjectProvider<Caller> caller;

    Here(ObjectProvider<Caller> caller) {
        this.caller = caller;
    }

    /** The zone of the site the page is about; UTC where there is none. */
    public ZoneId zone() {
        return RequestContextHolder.getRequestAttributes() instanceof ServletRequestAttributes current
                ? zone(current.getRequest())
                : ZoneOffset.UTC;
    }

    Optional<SignedIn> reader(HttpServletRequest request) {
        if (request.getAttribute(ASKED) instanceof Answer answer) {
            return answer.reader();
        }
        Answer answer = new Answer(
                caller.stream().flatMap(who -> who.of(request).stream()).findFirst());
        request.setAttribute(ASKED, answer);
        return answer.reader();
    }

    private ZoneId zone(HttpServletRequest request) {
        return reader(request)
                .flatMap(reader -> Optional.ofNullable(reader.at()))
                .map(AtSite::zone)
                .orElse(ZoneOffset.UTC);
    }

    private record Answer(Optional<SignedIn> reader) {}
}
