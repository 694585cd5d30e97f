package org.hoodkeeper.facts;

/** How well a figure is vouched for. Anything but {@link #VERIFIED} and {@link #COMPUTED} is shown beside the figure. */
public enum Mark {
    VERIFIED,
    RESTATED,
    FROM_MEMORY,
    COMPUTED,
    COMMON_PRACTICE,
    /** Invented for the demo site. */
    INVENTED
}
