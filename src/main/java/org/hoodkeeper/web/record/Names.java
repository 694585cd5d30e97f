package org.hoodkeeper.web.record;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.oversight.Consequences;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.reporting.Worn;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What a site calls its people and things, read once for a page. */
@Component
public class Names {

    private final People people;
    private final Kit kit;
    private final Programme programme;
    private final Accounts accounts;
    private final Words words;

    Names(People people, Kit kit, Programme programme, Accounts accounts, Words words) {
        this.people = people;
        this.kit = kit;
        this.programme = programme;
        this.accounts = accounts;
        this.words = words;
    }

    public Book of(Visit visit) {
        SiteId site = visit.viewer().site();
        Map<UUID, String> names = new HashMap<>();
        Map<UUID, String> numbers = new HashMap<>();
        people.all(site).forEach(one -> {
            names.put(one.id().value(), one.name());
            numbers.put(one.id().value(), one.number());
        });
        kit.sets(site).forEach(one -> names.put(one.id().value(), one.label()));
        kit.models(site).forEach(one -> names.put(one.id().value(), one.code()));
        kit.instruments(site).forEach(one -> names.put(one.id().value(), one.code()));
        kit.supplies(site).forEach(one -> names.put(one.id().value(), one.code()));
        programme.tasks(site).forEach(one -> names.put(one.id().value(), one.code()));
        accounts.on(site).forEach(one -> names.put(one.id().value(), one.name()));
        return new Book(names, numbers, words);
    }

    /** The names of one site. */
    public static final class Book {

        private final Map<UUID, String> names;
        private final Map<UUID, String> numbers;
        private final Words words;

        private Book(Map<UUID, String> names, Map<UUID, String> numbers, Words words) {
            this.names = names;
            this.numbers = numbers;
            this.words = words;
        }

        public String of(@Nullable Id id) {
            return id == null
                    ? words.say("version.noSet")
                    : names.getOrDefault(id.value(), words.say("store.history.unknown"));
        }

        public String of(UUID id) {
            return names.getOrDefault(id, words.say("store.history.unknown"));
        }

        public @Nullable String find(UUID id) {
            return names.get(id);
        }

        /** Everything whose name, label, code or number holds these letters, capitals or not. */
        public Set<UUID> called(String part) {
            String wanted = part.strip().toLowerCase(Locale.ROOT);
            return Stream.concat(names.entrySet().stream(), numbers.entrySet().stream())
                    .filter(one -> one.getValue().toLowerCase(Locale.ROOT).contains(wanted))
                    .map(Map.Entry::getKey)
                    .collect(Collectors.toSet());
        }

        /** Whether this is a person of the site, seen by whom is noted; a legal hold may be about anything. */
        boolean isPerson(UUID id) {
            return numbers.containsKey(id);
        }

        /** The worker's number, which the address of the person's page has. */
        public String number(Id worker) {
            return numbers.getOrDefault(worker.value(), "");
        }

        public String account(AccountId id) {
            return of(id);
        }

        public String worn(Worn worn) {
            return words.say("version.who", of(worn.worker()), of(worn.task()), of(worn.set()));
        }

        public String given(Consequences.Given given) {
            return words.say("version.who", of(given.worker()), of(given.task()), of(given.set()));
        }
    }
}
