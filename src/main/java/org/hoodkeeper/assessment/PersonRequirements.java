package org.hoodkeeper.assessment;

import static org.hoodkeeper.rules.RequirementKind.HAIR_AT_SEAL;
import static org.hoodkeeper.rules.RequirementKind.PERSON_HOLD;
import static org.hoodkeeper.rules.RequirementKind.POSTING;
import static org.hoodkeeper.rules.RequirementKind.TRAINING;
import static org.hoodkeeper.rules.RequirementKind.WEAR_TIME;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Set;
import java.util.TreeSet;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.Circumstance;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/** What is required of the person, apart from medical outcome and fit test. */
final class PersonRequirements {

    private PersonRequirements() {}

    /** Posted to the task at the instant: site rule, common practice, no source. */
    static void posting(Judging judging) {
        Told<Posting> posted = null;
        for (Told<Posting> told : judging.dossier.worker().postings()) {
            if (!judging.question.task().value().equals(told.item())) {
                continue;
            }
            judging.watch(told.from());
            judging.watch(told.until());
            if (told.from().isAfter(judging.at)) {
                continue;
            }
            if (told.fact().change() == Posting.Change.ENDED) {
                break;
            }
            if (told.isTrueAt(judging.at) && endsLater(told, posted)) {
                posted = told;
            }
        }
        if (posted == null) {
            judging.notMet(POSTING, Why.MISSING, null, null);
        } else {
            judging.met(POSTING, posted, null, posted.until());
        }
    }

    private static boolean endsLater(Told<Posting> one, @Nullable Told<Posting> other) {
        if (other == null || one.until() == null) {
            return true;
        }
        return other.until() != null && one.until().isAfter(other.until());
    }

    /** Trained on this model, the skill shown, in date; a later failure on the model voids it. */
    static void training(Judging judging) {
        InForce.Demand demand = judging.demand(TRAINING);
        if (demand == null) {
            judging.notApplicable(TRAINING, Why.NOT_REQUIRED);
            return;
        }
        String model = judging.dossier.model().code();
        Told<Training> undemonstrated = null;
        Set<String> others = null;
        for (Told<Training> told : judging.begun(judging.dossier.worker().trainings())) {
            if (!model.equals(told.scope())) {
                if (told.scope() != null) {
                    others = others == null ? new TreeSet<>() : others;
                    others.add(told.scope());
                }
            } else if (told.fact().outcome() == Outcome.FAIL) {
                judging.notMet(TRAINING, Why.FAILED, told, demand, model, judging.dayOf(told));
                return;
            } else if (!told.fact().demonstrated()) {
                undemonstrated = undemonstrated == null ? told : undemonstrated;
            } else {
                Instant end = judging.endOf(told, demand);
                if (!judging.lapsed(TRAINING, told, demand, end, model, judging.dayOf(told))) {
                    judging.met(TRAINING, told, demand, end, model, judging.dayOf(told));
                }
                return;
            }
        }
        if (undemonstrated != null) {
            judging.notMet(
                    TRAINING, Why.NOT_DEMONSTRATED, undemonstrated, demand, model, judging.dayOf(undemonstrated));
        } else if (others == null) {
            judging.notMet(TRAINING, Why.MISSING, null, demand, model);
        } else {
            judging.notMet(TRAINING, Why.OTHER_VARIANT, null, demand, model, String.join(", ", others));
        }
    }

    /**
     * Nothing between skin and seal on the day: 29 CFR 1910.134(g)(1)(i)(A). An edge that must lie on skin counts as a seal,
     * although the hood is loose-fitting (OSHA letter of 27 July 1993); there the officer decides.
     */
    static void hairAtSeal(Judging judging) {
        InForce.Demand demand = judging.demand(HAIR_AT_SEAL, Circumstance.SEALS_ON_SKIN);
        if (!judging.modelData().sealsOnSkin()) {
            judging.notApplicable(HAIR_AT_SEAL, Why.LOOSE_FITTING);
            return;
        }
        if (isHairAccepted(judging)) {
            judging.met(
                    HAIR_AT_SEAL, Why.OFFICER_DECIDES, judging.dossier.model().code());
            return;
        }
        Told<Observation> seen = judging.latest(
                judging.dossier.worker().observations(),
                told -> told.fact().seen() == Observation.Seen.CLEAR_AT_SEAL
                        || told.fact().seen() == Observation.Seen.HAIR_AT_SEAL);
        Told<PreUseCheck> check = StartRequirements.currentCheck(judging);
        Outcome checked = check == null ? null : check.fact().items().get(PreUseCheck.Item.SKIN_AT_SEAL);
        if (check != null && checked == Outcome.FAIL && Judging.isAfter(check, seen)) {
            judging.notMet(HAIR_AT_SEAL, Why.HAIR_AT_SEAL, check, demand, judging.dayOf(check));
        } else if (check != null
                && checked == Outcome.PASS
                && Judging.isAfter(check, seen)
                && !isSeenByAnother(judging, seen)) {
            judging.met(HAIR_AT_SEAL, check, demand, null);
        } else if (seen != null && seen.fact().seen() == Observation.Seen.HAIR_AT_SEAL) {
            hairSeen(judging, seen, demand);
        } else if (seen != null && isOfThisStint(judging, seen)) {
            judging.met(HAIR_AT_SEAL, seen, demand, null);
        } else {
            judging.missingAtStart(HAIR_AT_SEAL, Why.TO_DO, demand);
        }
    }

    /** What somebody else saw that day is not undone by the wearer's own tick, but by a second look. */
    private static boolean isSeenByAnother(Judging judging, @Nullable Told<Observation> seen) {
        return seen != null && seen.fact().seen() == Observation.Seen.HAIR_AT_SEAL && isOfThisStint(judging, seen);
    }

    /** The officer has decided that hair may be where the edge of this loose-fitting hood lies. */
    static boolean isHairAccepted(Judging judging) {
        if (judging.type().isTightFitting() || !judging.modelData().sealsOnSkin()) {
            return false;
        }
        InForce.Decided accepted = judging.rules.decision(
                "skin-contact.hair-accepted", judging.dossier.model().code());
        return accepted != null && accepted.isYes();
    }

    /** Seen on the day on which the stint starts, or since: a night shift does not grow a beard at midnight. */
    private static boolean isOfThisStint(Judging judging, Told<Observation> seen) {
        LocalDate start = Days.of(judging.question.wear().from(), judging.zone);
        return !judging.dayOf(seen).isBefore(start);
    }

    private static void hairSeen(Judging judging, Told<Observation> seen, InForce.@Nullable Demand demand) {
        if (judging.type().isTightFitting()) {
            judging.notMet(HAIR_AT_SEAL, Why.HAIR_AT_SEAL, seen, demand, judging.dayOf(seen));
            return;
        }
        String model = judging.dossier.model().code();
        judging.notMet(HAIR_AT_SEAL, Why.OFFICER_DECIDES, seen, demand, judging.dayOf(seen), model);
    }

    static void holds(Judging judging) {
        boolean held = false;
        for (Told<Hold> hold : OpenHolds.of(judging, judging.dossier.worker().holds())) {
            held = true;
            judging.notMet(PERSON_HOLD, Why.SUSPENDED, hold, null, hold.fact().why());
        }
        if (!held) {
            judging.met(PERSON_HOLD, Why.IN_PLACE);
        }
    }

    /** The site's own limit for the interface, where it has set one. */
    static void wearTime(Judging judging) {
        InForce.Decided limit =
                judging.rules.decision("wear.longest", judging.type().name());
        if (limit == null) {
            judging.notApplicable(WEAR_TIME, Why.NOT_REQUIRED);
            return;
        }
        Duration longest = limit.duration();
        Instant reached = Worn.limitReached(judging, longest);
        if (judging.isOver(reached)) {
            judging.add(Reason.of(WEAR_TIME, Result.NOT_MET, Why.WEAR_LIMIT, longest, reached)
                    .record(limit.record()));
        } else {
            judging.add(Reason.of(WEAR_TIME, Result.MET, Why.WEAR_LIMIT, longest, reached)
                    .record(limit.record())
                    .goodUntil(reached));
        }
    }
}
