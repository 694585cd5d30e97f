package org.hoodkeeper.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.hoodkeeper.access.SignIn.Place;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.kernel.Role;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.crypto.argon2.Argon2PasswordEncoder;

@OverHttp
class SignInTest {

    @Autowired
    SignIn signIn;

    @Autowired
    SignInPauses pauses;

    @Autowired
    TestPeople people;

    @Autowired
    JdbcClient jdbc;

    private final Place here = new Place("10.1.2." + TestPeople.unique(), null);

    @Test
    void nameIsTakenInAnyCaseAndPasswordExactly() {
        Person person = people.person(people.site(), Role.OFFICER);
        assertThat(signIn.attempt(" " + person.login().toUpperCase() + " ", TestPeople.PASSWORD, here)
                        .id())
                .isEqualTo(person.id());
        refused(person.login(), TestPeople.PASSWORD + " ");
        refused(person.login(), TestPeople.PASSWORD.toUpperCase());
    }

    /** OWASP ASVS 5.0.0, 6.3.1: guessing is slowed by account, and the owner's own device still gets in. */
    @Test
    void ofAThousandGuessesFewAreTriedAndTheOwnerStillGetsIn() {
        Person person = people.person(people.site(), Role.OFFICER);
        KnownAccount account = signIn.attempt(person.login(), TestPeople.PASSWORD, here);
        String device = signIn.rememberDevice(account, null);
        int before = refusals(person);
        for (int i = 0; i < 1000; i++) {
            refusedFrom(person.login(), "guess number " + i, new Place("10.9." + i / 250 + "." + i % 250, null));
        }
        assertThat(refusals(person) - before).isBetween(6, 8);
        refused(person.login(), TestPeople.PASSWORD);
        assertThat(signIn.attempt(person.login(), TestPeople.PASSWORD, new Place("10.9.9.9", device))
                        .id())
                .isEqualTo(person.id());
    }

    @Test
    void guessesAtOnceGetNoMoreTriesThanOneAfterTheOther() throws Exception {
        String subject = "account:" + TestPeople.unique();
        ExecutorService threads = Executors.newFixedThreadPool(8);
        List<Future<Boolean>> tries = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            tries.add(threads.submit(() -> pauses.tryNow(subject, SignInPauses.Pace.ACCOUNT)));
        }
        int let = 0;
        for (Future<Boolean> one : tries) {
            let += one.get() ? 1 : 0;
        }
        threads.shutdown();
        assertThat(let).isEqualTo(6);
    }

    /** Failures 6, 7, 8 … are followed by 2, 4, 8 … seconds, 300 at most. */
    @Test
    void thePauseDoublesAndEndsByItself() {
        String subject = "account:" + TestPeople.unique();
        pauseAfter(subject, 6, 1, false);
        pauseAfter(subject, 6, 3, true);
        pauseAfter(subject, 9, 15, false);
        pauseAfter(subject, 9, 17, true);
        pauseAfter(subject, 500, 299, false);
        pauseAfter(subject, 500, 301, true);
    }

    @Test
    void failuresAreForgottenAfterADay() {
        String subject = "account:" + TestPeople.unique();
        pauseAfter(subject, 30, 24 * 3600 + 1, true);
        assertThat(jdbc.sql("select failures from sign_in_pause where subject = ?")
                        .param(subject)
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);
    }

    @Test
    void anUnknownNameMeetsTheSamePauses() {
        String nobody = "nobody" + TestPeople.unique();
        for (int i = 0; i < 6; i++) {
            refused(nobody, "guess number " + i);
        }
        assertThatThrownBy(() -> signIn.attempt(nobody, "guess again", here)).hasMessageContaining("pause");
    }

    /** The median of both lies within a third of the other: no name is told by the clock. */
    @Test
    void anUnknownNameTakesAsLong() {
        Person person = people.person(people.site(), Role.OFFICER);
        long[] known = new long[5];
        long[] unknown = new long[5];
        for (int i = 0; i < 5; i++) {
            String guess = "guess number " + i;
            known[i] = time(() -> refused(person.login(), guess));
            unknown[i] = time(() -> refused("nobody" + TestPeople.unique(), guess));
        }
        Arrays.sort(known);
        Arrays.sort(unknown);
        assertThat((double) unknown[2] / known[2]).isBetween(0.5, 2.0);
    }

    @Test
    void anOlderEncodingIsRenewedAtSignIn() {
        Person person = people.person(people.site(), Role.OFFICER);
        String weaker = "{argon2id}" + new Argon2PasswordEncoder(16, 32, 1, 1024, 1).encode(TestPeople.PASSWORD);
        jdbc.sql("update account set password = ? where account_id = ?")
                .param(weaker)
                .param(person.id().value())
                .update();
        signIn.attempt(person.login(), TestPeople.PASSWORD, here);
        assertThat(jdbc.sql("select password from account where account_id = ?")
                        .param(person.id().value())
                        .query(String.class)
                        .single())
                .startsWith("{argon2id}$argon2id$v=19$m=19456,t=2,p=1$");
    }

    @Test
    void aTypedNameIsNowhereKeptInClear() {
        String typedWrongly = "password-in-the-wrong-field-" + TestPeople.unique();
        refused(typedWrongly, "x");
        for (String table : List.of("sign_in_pause", "service_audit_event")) {
            assertThat(jdbc.sql("select count(*) from " + table + " t where t::text like ?")
                            .param("%" + typedWrongly + "%")
                            .query(Integer.class)
                            .single())
                    .isZero();
        }
    }

    private void pauseAfter(String subject, int failures, int secondsAgo, boolean expected) {
        jdbc.sql("insert into sign_in_pause values (?, ?, clock_timestamp() - make_interval(secs => ?))"
                        + " on conflict (subject) do update set failures = excluded.failures,"
                        + " last_failed_at = excluded.last_failed_at")
                .param(subject)
                .param(failures)
                .param(secondsAgo)
                .update();
        assertThat(pauses.tryNow(subject, SignInPauses.Pace.ACCOUNT))
                .as("%d failures, %d s ago", failures, secondsAgo)
                .isEqualTo(expected);
    }

    private int refusals(Person person) {
        return jdbc.sql("select count(*) from service_audit_event where kind = 'signIn.refused' and actor = ?")
                .param(person.id().value())
                .query(Integer.class)
                .single();
    }

    private void refused(String login, String password) {
        refusedFrom(login, password, here);
    }

    private void refusedFrom(String login, String password, Place place) {
        assertThatThrownBy(() -> signIn.attempt(login, password, place)).isInstanceOf(AuthenticationException.class);
    }

    private static long time(Runnable work) {
        long begin = System.nanoTime();
        work.run();
        return System.nanoTime() - begin;
    }
}
