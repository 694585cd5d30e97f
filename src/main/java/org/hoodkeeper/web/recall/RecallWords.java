package org.hoodkeeper.web.recall;

import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Names;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Says what a recall means: every mark that it gives. */
@Component
class RecallWords {

    private final Words words;
    private final PlaceWords places;

    RecallWords(Words words, PlaceWords places) {
        this.words = words;
        this.places = places;
    }

    String means(Recall recall, Names.Book names) {
        List<String> marks = new ArrayList<>();
        add(marks, "recall.means.model", recall.model() == null ? null : names.of(recall.model()));
        add(marks, "recall.means.place", recall.place() == null ? null : places.of(recall.place()));
        add(marks, "recall.means.part", recall.part());
        add(marks, "recall.means.lot", recall.lot());
        if (!recall.serials().isEmpty()) {
            marks.add(words.say("recall.means.serials", List.copyOf(recall.serials())));
        }
        add(marks, "recall.means.madeFrom", recall.madeFrom());
        add(marks, "recall.means.madeUntil", recall.madeUntil());
        return String.join(", ", marks);
    }

    private void add(List<String> marks, String code, @Nullable Object value) {
        if (value != null) {
            marks.add(words.say(code, value));
        }
    }
}
