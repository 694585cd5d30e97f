package org.hoodkeeper.web.officer;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.hoodkeeper.facts.Particulars;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Employer and makers. @param makers a model on each line: its code, an equals sign, its maker */
public record ParticularsForm(
        @NotBlank @Size(max = 120) @Nullable String employer,
        @NotBlank @Size(max = 500) @Nullable String address,
        @Size(max = 4000) @Nullable String makers,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    static ParticularsForm of(@Nullable Particulars known) {
        return known == null
                ? new ParticularsForm(null, null, null, null, null)
                : new ParticularsForm(
                        known.employer(),
                        known.address(),
                        known.makers().entrySet().stream()
                                .map(maker -> maker.getKey() + " = " + maker.getValue())
                                .collect(Collectors.joining("\n")),
                        null,
                        null);
    }

    /** @throws Refused {@code particulars.makers.line} for a line without code, equals sign or maker */
    Particulars toFact() {
        Map<String, String> by = new TreeMap<>();
        for (String line : makers == null ? new String[0] : makers.split("\\R")) {
            if (line.isBlank()) {
                continue;
            }
            String[] halves = line.split("=", 2);
            if (halves.length < 2 || halves[0].isBlank() || halves[1].isBlank()) {
                throw new Refused("particulars.makers.line", line.strip());
            }
            by.put(halves[0].strip(), halves[1].strip());
        }
        return new Particulars(
                Objects.requireNonNull(employer).strip(),
                Objects.requireNonNull(address).strip(),
                by);
    }
}
