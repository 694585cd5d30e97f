package org.hoodkeeper.facts;

import java.util.Map;

/**
 * What stands on certificates and in no other record: who the employer is, and who made each model.
 *
 * @param employer name of the employer whose equipment it is
 * @param address postal address of the employer
 * @param makers maker by model code; a model that is left out has none on record
 */
public record Particulars(String employer, String address, Map<String, String> makers) implements Fact {

    public Particulars {
        makers = Ordered.copy(makers);
    }
}
