package org.hoodkeeper.web.signin;

import org.jspecify.annotations.Nullable;

/** What was typed on the sign-in page. The name is shown again after a refusal, the password never. */
public record SignInForm(@Nullable String login, @Nullable String password) {}
