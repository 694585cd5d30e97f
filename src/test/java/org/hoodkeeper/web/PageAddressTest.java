package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneId;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.junit.jupiter.api.Test;

/** What was asked of a list comes back as it was typed, on the next page and when sorted otherwise. */
class PageAddressTest {

    private static PageAddress records() {
        UUID id = UUID.randomUUID();
        return PageAddress.of(
                new Visit(
                        new Viewer(new SiteId(id), new AccountId(id), Set.of(Role.OFFICER), null, null),
                        new KnownAccount(id, "officer", "O. Invented"),
                        "ferrow",
                        "Ferrow Works",
                        ZoneId.of("Europe/London")),
                "/records");
    }

    /** RFC 3986, 2.2: what separates parts of a query is written with a percent sign; a plus would come back as a space. */
    @Test
    void signsThatMeanSomethingInAnAddressAreEncoded() {
        assertThat(records()
                        .with("about", "A+B {C} 50%&x=1#y ü")
                        .with("page", 2)
                        .toString())
                .isEqualTo("/sites/ferrow/records?about=A%2BB%20%7BC%7D%2050%25%26x%3D1%23y%20%C3%BC&page=2");
    }

    @Test
    void whatWasLeftEmptyIsLeftOut() {
        assertThat(records().with("kind", null).with("about", " ").toString()).isEqualTo("/sites/ferrow/records");
        assertThat(records().with("kind", null).query()).isEmpty();
        assertThat(records().with("q", "{x}").with("sort", "-task").query()).isEqualTo("q=%7Bx%7D&sort=-task");
    }
}
