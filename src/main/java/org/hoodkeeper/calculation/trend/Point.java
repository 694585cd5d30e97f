package org.hoodkeeper.calculation.trend;

/** One value at one place of the axis, for instance a flow in L/min at a week. */
public record Point(double x, double y) {}
