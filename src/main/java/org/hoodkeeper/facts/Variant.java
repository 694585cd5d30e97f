package org.hoodkeeper.facts;

import org.hoodkeeper.kernel.Refused;

/**
 * The exact thing that a fit test covers: model, size and revision of the seal.
 *
 * @param model the model's code
 * @param size the size, for instance {@code M}
 * @param sealRevision the revision of the seal's material or shape, for instance {@code R1}
 */
public record Variant(String model, String size, String sealRevision) {

    public Variant {
        for (String part : new String[] {model, size, sealRevision}) {
            if (part.isBlank() || part.indexOf('/') >= 0) {
                throw new Refused("variant.part", part);
            }
        }
    }

    public static Variant of(String text) {
        String[] parts = text.split("/", -1);
        if (parts.length != 3) {
            throw new Refused("variant.form", text);
        }
        return new Variant(parts[0], parts[1], parts[2]);
    }

    @Override
    public String toString() {
        return model + "/" + size + "/" + sealRevision;
    }
}
