package org.hoodkeeper.exchange;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.springframework.boot.test.context.TestComponent;

/** Brings files in and takes them out, as somebody with the roles that it needs. */
@TestComponent
public class Desk {

    private final SiteRegister sites;
    private final Imports imports;
    private final Exports exports;

    Desk(SiteRegister sites, Imports imports, Exports exports) {
        this.sites = sites;
        this.imports = imports;
        this.exports = exports;
    }

    public Site site() {
        return sites.open(
                "x" + UUID.randomUUID().toString().substring(24), "Invented works", ZoneId.of("Europe/London"), "uk");
    }

    public Viewer viewer(Site site, Role... roles) {
        return new Viewer(site.id(), new AccountId(UUID.randomUUID()), Set.of(roles), null, null);
    }

    /** What came of a file. */
    public record Result(ImportJob job, List<RowRefusal> refusals, List<String> held) {

        public List<String> codes() {
            return refusals.stream()
                    .map(one -> one.row() + " " + one.column() + " " + one.code())
                    .toList();
        }
    }

    public Result send(Viewer viewer, FileKind kind, ImportJob.Aim aim, InputStream content) {
        return SiteBinding.in(viewer.site(), () -> {
            UUID id = imports.start(viewer, kind, aim, kind.slug() + ".csv", content);
            return result(viewer, id);
        });
    }

    Result result(Viewer viewer, UUID id) {
        return SiteBinding.in(
                viewer.site(),
                () -> new Result(
                        imports.await(viewer, id, Duration.ofMinutes(2)),
                        imports.refusals(viewer, id),
                        imports.held(viewer, id)));
    }

    public Result send(Site site, FileKind kind, String text) {
        return send(
                viewer(site, Role.OFFICER, Role.HEALTH, Role.HYGIENIST),
                kind,
                ImportJob.Aim.RECORD,
                new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
    }

    String take(Viewer viewer, FileKind kind) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        SiteBinding.run(viewer.site(), () -> exports.write(viewer, kind, out));
        return out.toString(StandardCharsets.UTF_8);
    }

    String take(Site site, FileKind kind) {
        return take(viewer(site, Role.OFFICER, Role.HEALTH, Role.HYGIENIST), kind);
    }
}
