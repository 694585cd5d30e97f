package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.UUID;
import org.hoodkeeper.assessment.FitRequirement;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.rules.FitTestRule;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Fit tests of workers, each on one exact variant. */
@Service
@Transactional
public class FitTests {

    private final Telling telling;
    private final Known known;
    private final Kit kit;

    FitTests(Telling telling, Known known, Kit kit) {
        this.telling = telling;
        this.known = known;
        this.kit = kit;
    }

    /**
     * @param test as recorded, with its outcome
     * @param counts whether it counts under the site's rule set: a test can come out well and yet not be accepted
     */
    public record Done(RecordId record, FitTest test, FitRequirement.Passed counts) {}

    /**
     * Where fit factors are given, the outcome is that of the rule set in force at the test; a test that its tester called
     * failed stays failed. Without factors the tester's outcome stands.
     *
     * @param test raw results; its outcome is what the tester says
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code fitTest.model.loose} for a hood,
     *     {@code fitTest.model.unknownThen} before the model was held, {@code fitTest.size.unknown} for a size the model does
     *     not have; {@code ledger.future} when it lies ahead
     * @throws NotFound {@code model.unknown}
     */
    public Done record(
            Author author, WorkerId worker, Variant variant, FitTest test, Instant at, @Nullable String sourceId) {
        Done judged = judge(author.site(), variant, test, at);
        Draft draft =
                Draft.of(judged.test(), worker, at).scope(variant.toString()).source(sourceId);
        return new Done(telling.tell(author, draft, worker), judged.test(), judged.counts());
    }

    /** How it comes out, with nothing recorded: the record id is nobody's. @throws Refused as {@link #record} */
    @Transactional(readOnly = true)
    public Done judge(SiteId site, Variant variant, FitTest test, Instant at) {
        Accept.fact(test);
        ModelData model = model(site, variant, at);
        InForce rules = known.rules(site).at(at);
        FitTestRule rule = rules.fitTest(model.type());
        FitTest outcome = test.exercises().isEmpty() || rule == null ? test : with(test, model, rule);
        return new Done(NOT_RECORDED, outcome, FitRequirement.passes(outcome, model.type(), rule));
    }

    private static final RecordId NOT_RECORDED = new RecordId(new UUID(0, 0));

    private ModelData model(SiteId site, Variant variant, Instant at) {
        Told<ModelData> told =
                known.model(site, kit.model(site, variant.model()).id(), at);
        if (told == null) {
            throw new Refused("fitTest.model.unknownThen", variant.model(), at);
        }
        ModelData model = told.fact();
        Accept.fitTested(model.type());
        if (!model.sizes().isEmpty() && !model.sizes().contains(variant.size())) {
            throw new Refused("fitTest.size.unknown", variant.size(), model.sizes());
        }
        return model;
    }

    /** The factors alone decide pass or fail; whether the mode of the test suits is another question. */
    private static FitTest with(FitTest test, ModelData model, FitTestRule rule) {
        FitTest factors = copy(test, test.outcome(), true);
        boolean passed = FitRequirement.passes(factors, model.type(), rule) == FitRequirement.Passed.YES;
        return copy(test, passed ? Outcome.PASS : Outcome.FAIL, test.negativeMode());
    }

    private static FitTest copy(FitTest test, Outcome outcome, boolean negativeMode) {
        return new FitTest(test.method(), test.protocol(), test.exercises(), outcome, negativeMode, test.tester());
    }
}
