package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.GuideStepWords;
import org.hoodkeeper.facts.GuidedWork;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Work done by a guide, and what a model's maker asks for in addition. */
@Service
@Transactional
public class GuidedWorks {

    private final Telling telling;

    GuidedWorks(Telling telling) {
        this.telling = telling;
    }

    /**
     * Records the work. Each step that did not come out well opens a defect on its part, so that the set is out of use until
     * somebody has mended it.
     *
     * @param changed the part that was changed; none for other work
     * @param parts the place of the part that a step looks at, by the step's code; none where it looks at the whole
     * @throws Refused {@code guide.answers.missing} without answers
     */
    public RecordId record(
            Author author,
            SetId set,
            GuidedWork work,
            @Nullable String changed,
            Map<String, String> parts,
            Instant at) {
        List<Draft> drafts = new ArrayList<>();
        drafts.add(Draft.of(work, set, at).scope(changed));
        work.answers().forEach((step, outcome) -> {
            if (outcome == Outcome.FAIL) {
                String note = work.note() == null ? step : work.note();
                drafts.add(Draft.of(new Defect(Defect.Step.FOUND, parts.get(step), note), set, at));
            }
        });
        return telling.tell(author, drafts, set).records().get(0);
    }

    /** @param step guide and step, for instance {@code INSPECTION.VISOR} */
    public RecordId adapt(Author author, ModelId model, String step, GuideStepWords words, Instant from) {
        return telling.tell(author, Draft.of(words, model, from).scope(step));
    }
}
