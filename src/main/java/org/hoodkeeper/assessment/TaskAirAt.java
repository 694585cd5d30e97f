package org.hoodkeeper.assessment;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.hoodkeeper.calculation.Adequacy;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.rules.InForce;

/** The air of a task over a stretch of time in which nothing changes it, and how each factor stands in it. */
final class TaskAirAt {

    private final Told<TaskBasis> basis;
    private final InForce rules;
    private final Instant from;
    private final Instant until;
    private final List<AirPart> parts;
    private final Map<Against, List<InPeriod>> worked = new ConcurrentHashMap<>();

    private record Against(InForce.Factor factor, InterfaceType type) {}

    /** @param parts of one period: the shift, the short term or the ceiling */
    record InPeriod(List<AirPart> parts, Adequacy adequacy) {}

    private TaskAirAt(Told<TaskBasis> basis, InForce rules, Instant from, Instant until, List<AirPart> parts) {
        this.basis = basis;
        this.rules = rules;
        this.from = from;
        this.until = until;
        this.parts = List.copyOf(parts);
    }

    static TaskAirAt of(Judging judging, Told<TaskBasis> basis, ResultShelf shelf) {
        Looking looking = new Looking(judging.at, judging.rules.changesAt());
        var limits = judging.dossier.task().limits();
        List<AirPart> parts = TaskAir.of(
                basis,
                looking.begun(shelf.all()),
                substance -> looking.latest(limits.getOrDefault(substance, List.of())),
                shelf,
                judging.rules,
                judging.zone);
        return new TaskAirAt(basis, judging.rules, judging.at, looking.changesAt(), parts);
    }

    boolean isOf(Judging judging, Told<TaskBasis> of) {
        return basis == of && rules == judging.rules && !judging.at.isBefore(from) && judging.at.isBefore(until);
    }

    List<AirPart> parts() {
        return parts;
    }

    Instant until() {
        return until;
    }

    /** Parts that cannot be set against their limit are left out: the whole is at least as bad. */
    List<InPeriod> against(InForce.Factor factor, InterfaceType type) {
        return worked.computeIfAbsent(new Against(factor, type), this::work);
    }

    private List<InPeriod> work(Against against) {
        List<InPeriod> periods = new ArrayList<>();
        TaskAir.byPeriod(parts.stream().filter(part -> part.problem() == null).toList())
                .values()
                .forEach(period -> periods.add(
                        new InPeriod(period, AirAdequacy.of(period, basis.fact(), against.factor(), against.type()))));
        return periods;
    }
}
