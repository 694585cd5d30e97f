package org.hoodkeeper.access;

/** A password in the service's own encoding: one for all the accounts of a benchmark, for each encoding takes its time. */
public final class BenchPassword {

    private BenchPassword() {}

    public static String encoded(String password) {
        return new PasswordEncoding().passwordEncoder().encode(password);
    }

    /** What is stored of a command's token. */
    public static byte[] hash(String secret) {
        return Secret.hash(secret);
    }
}
