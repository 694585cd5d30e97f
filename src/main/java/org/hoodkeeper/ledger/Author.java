package org.hoodkeeper.ledger;

import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;

/** Who tells the ledger something, on which site, and by which way. */
public record Author(SiteId site, AccountId account, Via via) {

    public enum Via {
        FORM,
        IMPORT,
        COMMAND,
        DEMO,
        SERVICE
    }

    /** The person at a form. */
    public static Author at(Viewer viewer) {
        return new Author(viewer.site(), viewer.account(), Via.FORM);
    }
}
