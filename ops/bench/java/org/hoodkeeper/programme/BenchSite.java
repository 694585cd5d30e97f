package org.hoodkeeper.programme;

import java.time.ZoneId;

/** A site that no database knows. */
public final class BenchSite {

    private BenchSite() {}

    public static Site of(String code) {
        return new Site(code, code, ZoneId.of("Europe/London"), "uk");
    }
}
