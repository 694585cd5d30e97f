package org.hoodkeeper.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import java.util.Enumeration;
import java.util.concurrent.atomic.AtomicLong;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Chain;
import org.hoodkeeper.ledger.Sealer;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** A file of a hundred thousand rows passes through: what is held in memory does not grow with it. */
@SpringBootTest
@Import(Desk.class)
@Tag("large")
class ManyRowsTest {

    private static final int ROWS = 100_000;

    @Autowired
    Desk desk;

    @Autowired
    Sealer sealer;

    @Autowired
    Chain chain;

    @Test
    void aHundredThousandWearsPassThroughLittleMemory() {
        Site site = desk.site();
        for (FileKind kind : new FileKind[] {
            FileKind.WORKERS, FileKind.TASKS, FileKind.SUPPLIES, FileKind.INSTRUMENTS, FileKind.MODELS, FileKind.SETS
        }) {
            assertThat(desk.send(site, kind, WholeSite.FILES.get(kind)).codes()).isEmpty();
        }
        AtomicLong highest = new AtomicLong();
        System.gc();
        long before = used();
        Thread watch = new Thread(() -> watch(highest));
        watch.setDaemon(true);
        watch.start();
        Desk.Result result = desk.send(desk.viewer(site, Role.OFFICER), FileKind.WEARS, ImportJob.Aim.RECORD, wears());
        watch.interrupt();
        assertThat(result.codes()).isEmpty();
        assertThat(result.job().recorded()).isEqualTo(ROWS);
        // all rows as objects with their JSON would need more than 100 MB
        assertThat(highest.get() - before).isLessThan(96L * 1024 * 1024);
        SiteBinding.run(site.id(), () -> {
            sealer.seal(site.id());
            assertThat(chain.check(site.id()).broken()).isEmpty();
        });
        Desk.Result again = desk.send(desk.viewer(site, Role.OFFICER), FileKind.WEARS, ImportJob.Aim.RECORD, wears());
        assertThat(again.codes()).isEmpty();
        assertThat(again.job().already()).isEqualTo(ROWS);
        assertThat(again.job().recorded()).isZero();
    }

    private static InputStream wears() {
        OffsetDateTime first = OffsetDateTime.parse("2025-03-01T06:00:00Z");
        return new SequenceInputStream(new Enumeration<>() {
            private int row = -1;

            @Override
            public boolean hasMoreElements() {
                return row < ROWS;
            }

            @Override
            public InputStream nextElement() {
                String line = row < 0
                        ? "source_id,worker,set,task,from,until,step\n"
                        : "WE-" + row + ",W-1,H-1,BLAST," + first.plusMinutes(2L * row) + ","
                                + first.plusMinutes(2L * row + 1) + ",whole\n";
                row++;
                return new ByteArrayInputStream(line.getBytes(StandardCharsets.UTF_8));
            }
        });
    }

    /** What is left after collections, so that rubbish does not count. */
    private static void watch(AtomicLong highest) {
        while (!Thread.currentThread().isInterrupted()) {
            System.gc();
            highest.accumulateAndGet(used(), Math::max);
            try {
                Thread.sleep(200);
            } catch (InterruptedException over) {
                return;
            }
        }
    }

    private static long used() {
        return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
    }
}
