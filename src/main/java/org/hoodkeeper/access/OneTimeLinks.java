package org.hoodkeeper.access;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Links that work once, within the hour. A newer link of the same purpose for the same account ends the older ones. */
@Repository
class OneTimeLinks {

    enum Purpose {
        FIRST_ADMINISTRATOR,
        CHOOSE_PASSWORD
    }

    /** For whom a link was; nobody's yet when it makes the first administrator. */
    record Used(@Nullable AccountId account) {}

    private final JdbcClient jdbc;

    OneTimeLinks(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** @return the secret, which is kept nowhere; good for 60 minutes */
    String make(Purpose purpose, @Nullable AccountId account) {
        UUID whose = account == null ? null : account.value();
        jdbc.sql("delete from one_time_link where purpose = :purpose and used_at is null"
                        + " and account_id is not distinct from cast(:account as uuid)")
                .param("purpose", purpose.name())
                .param("account", whose)
                .update();
        String secret = Secret.make();
        jdbc.sql("insert into one_time_link (secret_hash, purpose, account_id, expires_at)"
                        + " values (:hash, :purpose, :account, now() + interval '60 minutes')")
                .param("hash", Secret.hash(secret))
                .param("purpose", purpose.name())
                .param("account", whose)
                .update();
        return secret;
    }

    boolean isOpen(Purpose purpose, String secret) {
        return jdbc.sql("select exists (select 1 from one_time_link where secret_hash = :hash and purpose = :purpose"
                        + " and used_at is null and expires_at > now())")
                .param("hash", Secret.hash(secret))
                .param("purpose", purpose.name())
                .query(Boolean.class)
                .single();
    }

    /** Uses the link up; empty when it was used before, has expired or never was. Of two at once, one gets it. */
    Optional<Used> use(Purpose purpose, String secret) {
        List<Used> used = jdbc.sql("update one_time_link set used_at = now() where secret_hash = :hash"
                        + " and purpose = :purpose and used_at is null and expires_at > now() returning account_id")
                .param("hash", Secret.hash(secret))
                .param("purpose", purpose.name())
                .query((row, index) -> {
                    UUID account = row.getObject("account_id", UUID.class);
                    return new Used(account == null ? null : new AccountId(account));
                })
                .list();
        return used.stream().findFirst();
    }
}
