package org.hoodkeeper.access.edge;

import jakarta.servlet.http.Cookie;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Duration;
import org.hoodkeeper.access.SignIn;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseCookie;
import org.springframework.stereotype.Component;
import org.springframework.web.util.WebUtils;

/** What a device keeps from a sign-in, so that guesses made elsewhere do not hold up its owner. Signs nobody in. */
@Component
class DeviceCookie {

    private static final Duration KEPT = Duration.ofDays(180);
    private static final int LONGEST = 64;

    private final String name;
    private final boolean secure;

    DeviceCookie(Transport transport) {
        this.name = transport.cookieName("hoodkeeper-device");
        this.secure = transport.isSecure();
    }

    SignIn.Place place(HttpServletRequest request) {
        return new SignIn.Place(request.getRemoteAddr(), read(request));
    }

    @Nullable String read(HttpServletRequest request) {
        Cookie cookie = WebUtils.getCookie(request, name);
        return cookie == null
                        || cookie.getValue().isEmpty()
                        || cookie.getValue().length() > LONGEST
                ? null
                : cookie.getValue();
    }

    void write(String device, HttpServletResponse response) {
        ResponseCookie cookie = ResponseCookie.from(name, device)
                .maxAge(KEPT)
                .path("/")
                .httpOnly(true)
                .secure(secure)
                .sameSite("Lax")
                .build();
        response.addHeader(HttpHeaders.SET_COOKIE, cookie.toString());
    }
}
