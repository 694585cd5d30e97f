package org.hoodkeeper.facts;

/** The part that bounds the wearer's breathing space, and what drives the air. "Powered" is no exemption from a fit test. */
public enum InterfaceType {
    POWERED_HOOD(Fit.LOOSE, Air.BLOWER),
    POWERED_HALF_MASK(Fit.TIGHT, Air.BLOWER),
    POWERED_FULL_MASK(Fit.TIGHT, Air.BLOWER),
    HALF_MASK(Fit.TIGHT, Air.LUNG),
    FULL_MASK(Fit.TIGHT, Air.LUNG),
    FILTERING_FACEPIECE(Fit.TIGHT, Air.LUNG),
    AIRLINE_HOOD(Fit.LOOSE, Air.SUPPLIED),
    AIRLINE_HALF_MASK(Fit.TIGHT, Air.SUPPLIED),
    AIRLINE_FULL_MASK(Fit.TIGHT, Air.SUPPLIED),
    BREATHING_APPARATUS(Fit.TIGHT, Air.CARRIED);

    enum Fit {
        LOOSE,
        TIGHT
    }

    enum Air {
        LUNG,
        BLOWER,
        SUPPLIED,
        CARRIED
    }

    private final Fit fit;
    private final Air air;

    InterfaceType(Fit fit, Air air) {
        this.fit = fit;
        this.air = air;
    }

    public boolean isTightFitting() {
        return fit == Fit.TIGHT;
    }

    public boolean isHood() {
        return fit == Fit.LOOSE;
    }

    public boolean hasBlower() {
        return air == Air.BLOWER;
    }

    /** Fed from a compressed-air supply through a tube. */
    public boolean isAirFed() {
        return air == Air.SUPPLIED;
    }

    /** Takes its air from the room through a filter. */
    public boolean filtersRoomAir() {
        return air == Air.LUNG || air == Air.BLOWER;
    }

    /** Has a flow that can be measured: blown or supplied. */
    public boolean hasFlow() {
        return air == Air.BLOWER || air == Air.SUPPLIED;
    }

    public boolean isFullFace() {
        return this == FULL_MASK
                || this == POWERED_FULL_MASK
                || this == AIRLINE_FULL_MASK
                || this == BREATHING_APPARATUS;
    }
}
