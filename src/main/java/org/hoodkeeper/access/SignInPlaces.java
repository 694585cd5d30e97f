package org.hoodkeeper.access;

import org.hoodkeeper.kernel.AccountId;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Devices that an account has signed in from, each known by a secret that the device keeps. */
@Repository
class SignInPlaces {

    private final JdbcClient jdbc;

    SignInPlaces(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Asks in one query whether or not the sign-in name exists, so that both take the same time. */
    boolean knows(String login, String device) {
        return jdbc.sql("select exists (select 1 from sign_in_place p join account a on a.account_id = p.account_id"
                        + " where a.login = :login and p.place_hash = :place"
                        + " and p.last_at > now() - interval '180 days')")
                .param("login", login)
                .param("place", Secret.hash(device))
                .query(Boolean.class)
                .single();
    }

    void remember(AccountId account, String device) {
        jdbc.sql("insert into sign_in_place (account_id, place_hash, last_at) values (:account, :place, now())"
                        + " on conflict (account_id, place_hash) do update set last_at = now()")
                .param("account", account.value())
                .param("place", Secret.hash(device))
                .update();
        jdbc.sql("delete from sign_in_place where account_id = :account and last_at < now() - interval '180 days'")
                .param("account", account.value())
                .update();
    }
}
