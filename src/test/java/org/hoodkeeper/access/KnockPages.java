package org.hoodkeeper.access;

import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** Pages that only tests have: one that forgot to say who may call it, and some that say. */
@TestComponent
@RestController
class KnockPages {

    private final JdbcClient jdbc;
    private final TransactionTemplate transaction;

    KnockPages(JdbcClient jdbc, TransactionTemplate transaction) {
        this.jdbc = jdbc;
        this.transaction = transaction;
    }

    @GetMapping({"/sites/{site}/knock/undeclared", "/knock/undeclared", "/api/sites/{site}/knock/undeclared"})
    String undeclared() {
        return "nobody should read this";
    }

    @Allowed(Role.OFFICER)
    @GetMapping({"/sites/{site}/knock/officer", "/api/sites/{site}/knock/officer"})
    String officer(Viewer viewer) {
        return viewer.roles().toString();
    }

    @Allowed(self = true)
    @GetMapping("/sites/{site}/knock/bound")
    String bound() {
        return transaction.execute(status -> jdbc.sql("select current_setting('hoodkeeper.site', true)")
                .query(String.class)
                .single());
    }

    @Allowed(Role.OFFICER)
    @PostMapping({"/api/sites/{site}/knock/write", "/sites/{site}/knock/write"})
    String write() {
        return "written";
    }

    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/knock/fault")
    String fault() {
        throw new IllegalStateException("a secret of the inside");
    }
}
