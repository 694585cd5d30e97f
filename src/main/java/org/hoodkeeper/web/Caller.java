package org.hoodkeeper.web;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Optional;

/** Tells the pages who is reading; empty on public pages and on error pages before sign-in. */
@FunctionalInterface
public interface Caller {

    Optional<SignedIn> of(HttpServletRequest request);
}
