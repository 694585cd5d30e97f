package org.hoodkeeper.access;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.hoodkeeper.kernel.Role;

/**
 * Who may call a page. Every mapping carries this or {@link Public}; one without either is refused to everybody. Under
 * {@code /sites/{site}/} the roles are those held on that site; elsewhere, those held on any.
 */
@Documented
@Target(ElementType.METHOD)
@Retention(RetentionPolicy.RUNTIME)
public @interface Allowed {

    /** Holders of any of these roles. */
    Role[] value() default {};

    /**
     * Also anybody else with a role on the site, for what concerns only themself; the page compares the person asked
     * about with the viewer. Outside of a site: anybody signed in.
     */
    boolean self() default false;
}
