package org.hoodkeeper.ledger;

import javax.sql.DataSource;
import org.hoodkeeper.kernel.SiteId;

/** The service's own check of a chain, on connections of the benchmark's. */
public final class BenchChain {

    private BenchChain() {}

    public static Chain.Checked check(DataSource connections, SiteId site) {
        return new Chain(connections).check(site);
    }
}
