package org.hoodkeeper.rules;

/** What a rule does with its requirement. */
public enum Effect {
    REQUIRED,
    /** Says why nothing is required here: the answer is "not applicable", with this clause. */
    NOT_REQUIRED,
    /** The law leaves it open; the rule's decision key says where the site's answer lies. */
    SITE_DECIDES
}
