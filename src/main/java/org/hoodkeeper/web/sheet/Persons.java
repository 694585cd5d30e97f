package org.hoodkeeper.web.sheet;

import java.util.List;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Finds whom a page is about. */
@Component
public class Persons {

    private final People people;

    Persons(People people) {
        this.people = people;
    }

    /** @throws NotFound {@code worker.unknown} */
    public Person byNumber(Visit visit, String number) {
        return person(people.byNumber(visit.viewer().site(), number));
    }

    /** @throws NotFound {@code worker.unknown} */
    public Person byId(Visit visit, WorkerId id) {
        return person(people.get(visit.viewer().site(), id));
    }

    /** Everyone, by number. */
    public List<Person> all(Visit visit) {
        return people.all(visit.viewer().site()).stream().map(Persons::person).toList();
    }

    /**
     * Those whose number or name holds what was typed, fifty at a time.
     *
     * @param page from 1 on; none for the first
     */
    public Roll roll(Visit visit, @Nullable String typed, @Nullable Integer page) {
        return Roll.of(all(visit), typed, page);
    }

    private static Person person(Worker worker) {
        return new Person(worker.id(), worker.number(), worker.name());
    }

    /**
     * For pages on which everybody may act for themself.
     *
     * @param roles who may act for others
     * @throws NotFound {@code worker.unknown}, also for a person that this reader may not act for
     */
    public Person selfOr(Visit visit, String number, Role... roles) {
        Person person = byNumber(visit, number);
        if (!visit.viewer().isSelf(person.id()) && !visit.viewer().isAny(roles)) {
            throw new NotFound("worker.unknown", number);
        }
        return person;
    }
}
