package org.hoodkeeper.access;

import java.time.Duration;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/**
 * Slows guessing down, by what is guessed at and by where from. The pause doubles with each failure up to a bound and
 * always ends: nobody can lock somebody else out for good.
 */
@Repository
class SignInPauses {

    /**
     * How a kind of subject is slowed.
     *
     * @param free failures in a row without any pause
     * @param longest the pause never grows beyond
     * @param memory a failure is forgotten this long after the last one
     */
    record Pace(int free, Duration longest, Duration memory) {

        /** Five mistakes are human; then 2 s, 4 s, … 5 min: at most some 290 guesses a day at one account. */
        static final Pace ACCOUNT = new Pace(5, Duration.ofMinutes(5), Duration.ofHours(24));

        /** A whole site may come from one address at a shift's start, so it has room and short pauses. */
        static final Pace SOURCE = new Pace(50, Duration.ofMinutes(1), Duration.ofHours(1));
    }

    private final JdbcClient jdbc;

    SignInPauses(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * Counts a try as failed before it is made, in one statement, so that many at once get no more tries than one after
     * the other.
     *
     * @return whether the try may be made; false while a pause runs, which it does not lengthen
     */
    boolean tryNow(String subject, Pace pace) {
        return jdbc.sql(
                                "insert into sign_in_pause as p (subject, failures, last_failed_at)"
                                        + " values (:subject, 1, clock_timestamp()) on conflict (subject) do update set"
                                        + " failures = case when p.last_failed_at < clock_timestamp() - make_interval(secs => :memory)"
                                        + "   then 1 else p.failures + 1 end, last_failed_at = clock_timestamp()"
                                        + " where p.failures <= :free or clock_timestamp() >= p.last_failed_at"
                                        + "   + make_interval(secs => least(power(2, least(p.failures - :free, 20)), :longest))")
                        .param("subject", subject)
                        .param("memory", pace.memory().toSeconds())
                        .param("free", pace.free())
                        .param("longest", pace.longest().toSeconds())
                        .update()
                > 0;
    }

    /** The tries were the person's own. */
    void forget(String subject) {
        jdbc.sql("delete from sign_in_pause where subject = :subject")
                .param("subject", subject)
                .update();
    }

    /** Takes one try back, without forgiving the others from there. */
    void takeBack(String subject) {
        jdbc.sql("update sign_in_pause set failures = failures - 1 where subject = :subject and failures > 1")
                .param("subject", subject)
                .update();
    }
}
