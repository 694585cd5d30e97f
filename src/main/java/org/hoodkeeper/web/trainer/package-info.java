/** The pages of the fit tester and trainer: trainings, fit tests and seats. */
@NullMarked
package org.hoodkeeper.web.trainer;

import org.jspecify.annotations.NullMarked;
