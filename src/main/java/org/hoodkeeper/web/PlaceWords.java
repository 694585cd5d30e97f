package org.hoodkeeper.web;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.hoodkeeper.facts.PartClass;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What a place of a set is called on a page: in words where the model gives it its usual name, else as the model names it. */
@Component("places")
public class PlaceWords {

    private final Words words;

    PlaceWords(Words words) {
        this.words = words;
    }

    public String of(@Nullable String slot) {
        return slot == null
                ? ""
                : PartClass.named(slot)
                        .map(part -> words.say("kinds.PartClass." + part))
                        .orElse(slot);
    }

    /** To choose from. Where two models name one place in two ways, each keeps its own name beside the words. */
    public List<Choice> choices(Collection<String> slots) {
        Map<String, List<String>> alike = slots.stream().collect(Collectors.groupingBy(this::of));
        return slots.stream()
                .map(slot -> Choice.named(
                        slot, alike.containsValue(List.of(slot)) ? of(slot) : words.say("place.named", of(slot), slot)))
                .toList();
    }

    /** Several in one line, in their order. */
    public String of(List<String> slots) {
        return slots.stream().map(this::of).collect(Collectors.joining(", "));
    }
}
