package org.hoodkeeper.exchange;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Files on their way out, with the columns of the import and only what counts now. Read in one snapshot and passed on row by
 * row. Each is written to the audit trail before its first row leaves.
 */
@Service
public class Exports {

    private final Lines lines;
    private final Shelves shelves;
    private final AuditTrail audit;
    private final TransactionTemplate snapshot;

    Exports(Lines lines, Shelves shelves, AuditTrail audit, PlatformTransactionManager transactions) {
        this.lines = lines;
        this.shelves = shelves;
        this.audit = audit;
        this.snapshot = new TransactionTemplate(transactions);
        this.snapshot.setReadOnly(true);
        this.snapshot.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
    }

    /** @throws Refused {@code exchange.notYours} when the viewer's roles do not take out this file */
    public void require(Viewer viewer, FileKind kind) {
        if (!kind.mayBeTakenBy(viewer.roles())) {
            throw new Refused("exchange.notYours");
        }
    }

    /**
     * Writes the file to {@code out}, which stays open. Call it with the viewer's site bound and outside of a transaction.
     *
     * @throws Refused as {@link #require}
     */
    public void write(Viewer viewer, FileKind kind, OutputStream out) {
        require(viewer, kind);
        audit.record(
                viewer.site(), AuditEntry.of("file.taken").by(viewer.account()).saying(kind.slug()));
        snapshot.executeWithoutResult(status -> {
            try {
                print(viewer, kind, out);
            } catch (IOException gone) {
                throw new UncheckedIOException(gone);
            }
        });
    }

    private void print(Viewer viewer, FileKind kind, OutputStream out) throws IOException {
        Names names = shelves.names(viewer.site());
        CellWriter writer = new CellWriter(kind, names, shelves.moments(viewer.site()));
        Writer text = new BufferedWriter(new OutputStreamWriter(out, StandardCharsets.UTF_8));
        CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180);
        printer.printRecord(writer.header());
        lines.each(viewer.site(), kind, reach(viewer, kind), viewer.employer(), names, line -> {
            try {
                printer.printRecord(writer.cells(line));
            } catch (IOException gone) {
                throw new UncheckedIOException(gone);
            }
        });
        printer.flush();
    }

    private static Lines.Reach reach(Viewer viewer, FileKind kind) {
        if (!kind.takesAll(viewer.roles())) {
            return Lines.Reach.EMPLOYER;
        }
        return kind == FileKind.HOLDS && !viewer.is(Role.OFFICER) ? Lines.Reach.THINGS : Lines.Reach.ALL;
    }
}
