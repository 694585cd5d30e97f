package org.hoodkeeper.kernel;

/** What an account may do on a site. An account can hold several; the health role is never held by an administrator alone. */
public enum Role {
    WORKER,
    SUPERVISOR,
    STOREKEEPER,
    OFFICER,
    HEALTH,
    /** Fit tester and trainer: records fit tests, trainings and bookings. */
    TRAINER,
    HYGIENIST,
    /** Employer of contractors: sees its own staff only. */
    EMPLOYER,
    ADMINISTRATOR
}
