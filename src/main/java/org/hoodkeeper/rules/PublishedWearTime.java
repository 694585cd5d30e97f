package org.hoodkeeper.rules;

import java.util.List;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Mark;
import org.jspecify.annotations.Nullable;

/**
 * How long a device may be worn, as a source publishes it: for moderate work, no heat and no other heavy clothing, so that the
 * site still has to lower it. A site is held to none of these until it decides its own longest wear.
 *
 * @param device what the source calls it
 * @param minutes longest wear without a rest, minutes; none where the source sets no limit
 * @param rest rest after it, minutes; none where the source names none
 * @param perShift longest wear in one shift or day, minutes; none where the source sets no limit
 */
public record PublishedWearTime(
        Source source,
        Device device,
        @Nullable Integer minutes,
        @Nullable Integer rest,
        @Nullable Integer perShift) {

    /** Where it is published. */
    public enum Source {
        /** DGUV Regel 112-190, guide values; the table as printed in DGUV Information 201-028, annex 7. */
        DGUV(Mark.VERIFIED),
        /** Denmark: filtering masks at most 3 h a day; beyond that powered or supplied. */
        DENMARK(Mark.RESTATED),
        /** Guidance for asbestos work: powered and air-fed 6 h a day, rest after 2 h; it names no length of the rest. */
        ASBESTOS(Mark.RESTATED),
        /** The same for heavy demolition: 4 h a day. */
        ASBESTOS_DEMOLITION(Mark.RESTATED);

        private final Mark mark;

        Source(Mark mark) {
            this.mark = mark;
        }

        public Mark mark() {
            return mark;
        }
    }

    /** As the sources tell devices apart. */
    public enum Device {
        FULL_MASK_P2(InterfaceType.FULL_MASK),
        FULL_MASK_P3(InterfaceType.FULL_MASK),
        HALF_MASK_P2(InterfaceType.HALF_MASK),
        HALF_MASK_P3(InterfaceType.HALF_MASK),
        FACEPIECE_WITHOUT_VALVE(InterfaceType.FILTERING_FACEPIECE),
        FACEPIECE_WITH_VALVE(InterfaceType.FILTERING_FACEPIECE),
        POWERED_FULL_MASK(InterfaceType.POWERED_FULL_MASK),
        POWERED_HALF_MASK(InterfaceType.POWERED_HALF_MASK),
        POWERED_HOOD(InterfaceType.POWERED_HOOD),
        /** Below 3 kg. */
        AIRLINE_HOOD(InterfaceType.AIRLINE_HOOD),
        FILTERING_MASK(InterfaceType.HALF_MASK, InterfaceType.FULL_MASK, InterfaceType.FILTERING_FACEPIECE),
        POWERED_OR_SUPPLIED(
                InterfaceType.POWERED_HOOD,
                InterfaceType.POWERED_HALF_MASK,
                InterfaceType.POWERED_FULL_MASK,
                InterfaceType.AIRLINE_HOOD,
                InterfaceType.AIRLINE_HALF_MASK,
                InterfaceType.AIRLINE_FULL_MASK);

        private final List<InterfaceType> types;

        Device(InterfaceType... types) {
            this.types = List.of(types);
        }
    }

    private static final List<PublishedWearTime> ALL = List.of(
            dguv(Device.FULL_MASK_P2, 135, 30, 420),
            dguv(Device.FULL_MASK_P3, 120, 30, 360),
            dguv(Device.HALF_MASK_P2, 150, 30, 420),
            dguv(Device.HALF_MASK_P3, 135, 30, 420),
            dguv(Device.FACEPIECE_WITHOUT_VALVE, 75, 30, 360),
            dguv(Device.FACEPIECE_WITH_VALVE, 150, 30, 420),
            dguv(Device.POWERED_FULL_MASK, 150, 30, 420),
            dguv(Device.POWERED_HALF_MASK, 180, 30, 450),
            dguv(Device.POWERED_HOOD, null, null, null),
            dguv(Device.AIRLINE_HOOD, null, null, null),
            new PublishedWearTime(Source.DENMARK, Device.FILTERING_MASK, null, null, 180),
            new PublishedWearTime(Source.ASBESTOS, Device.POWERED_OR_SUPPLIED, 120, null, 360),
            new PublishedWearTime(Source.ASBESTOS_DEMOLITION, Device.POWERED_OR_SUPPLIED, 120, null, 240));

    private static PublishedWearTime dguv(
            Device device, @Nullable Integer minutes, @Nullable Integer rest, @Nullable Integer perShift) {
        return new PublishedWearTime(Source.DGUV, device, minutes, rest, perShift);
    }

    public static List<PublishedWearTime> all() {
        return ALL;
    }

    /** What the sources say of that type; empty where none of them names it. */
    public static List<PublishedWearTime> of(InterfaceType type) {
        return ALL.stream().filter(one -> one.device.types.contains(type)).toList();
    }
}
