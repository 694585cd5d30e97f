package org.hoodkeeper.web.record;

import java.util.UUID;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Whom or what a record is about, by the name that the site gave it. */
@Component
class About {

    private final People people;
    private final Kit kit;
    private final Programme programme;

    About(People people, Kit kit, Programme programme) {
        this.people = people;
        this.kit = kit;
        this.programme = programme;
    }

    /**
     * @param path under the site's address where it has a page; none where it has none
     */
    public record Thing(String name, @Nullable String path) {}

    Thing of(Visit visit, History.Version version) {
        SiteId site = visit.viewer().site();
        UUID subject = version.told().subject();
        return switch (version.kind().subject()) {
            case WORKER -> worker(people.get(site, new WorkerId(subject)));
            case SET -> set(kit.set(site, new SetId(subject)).label());
            case MODEL -> new Thing(kit.model(site, new ModelId(subject)).code(), null);
            case TASK -> new Thing(programme.task(site, new TaskId(subject)).code(), null);
            case INSTRUMENT -> {
                String code = kit.instrument(site, new InstrumentId(subject)).code();
                yield new Thing(code, "/instruments/" + code);
            }
            case SUPPLY -> {
                String code = kit.supply(site, new SupplyId(subject)).code();
                yield new Thing(code, "/supplies/" + code);
            }
            case SITE -> new Thing(visit.siteName(), version.kind() == Kind.SITE_DECISION ? "/decisions" : null);
            case ANY -> subject.equals(site.value()) ? new Thing(visit.siteName(), null) : any(site, subject);
        };
    }

    private Thing any(SiteId site, UUID subject) {
        try {
            return set(kit.set(site, new SetId(subject)).label());
        } catch (NotFound noSet) {
            try {
                return worker(people.get(site, new WorkerId(subject)));
            } catch (NotFound noWorker) {
                return thing(site, subject);
            }
        }
    }

    private Thing thing(SiteId site, UUID subject) {
        try {
            return new Thing(programme.task(site, new TaskId(subject)).code(), null);
        } catch (NotFound noTask) {
            String code = kit.supply(site, new SupplyId(subject)).code();
            return new Thing(code, "/supplies/" + code);
        }
    }

    private static Thing worker(Worker worker) {
        return new Thing(worker.number() + ", " + worker.name(), "/workers/" + worker.number());
    }

    private static Thing set(String label) {
        return new Thing(label, "/sets/" + label);
    }
}
