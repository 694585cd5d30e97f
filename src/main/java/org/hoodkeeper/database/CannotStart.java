package org.hoodkeeper.database;

import org.springframework.boot.ExitCodeGenerator;

/** The service may not start as it was asked to. Carries the one line that the person at the console reads. */
public class CannotStart extends RuntimeException implements ExitCodeGenerator {

    public CannotStart(String line) {
        super(line, null, false, false);
    }

    @Override
    public int getExitCode() {
        return 1;
    }
}
