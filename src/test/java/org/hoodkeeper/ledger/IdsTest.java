package org.hoodkeeper.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class IdsTest {

    private static final int WRITERS = 8;
    private static final int EACH = 50_000;

    /** A file whose rows come out of order is broken off, so others who write meanwhile must not turn two of its ids about. */
    @Test
    void idsOfOneWriterAscendWhileOthersWrite() throws Exception {
        ExecutorService writers = Executors.newFixedThreadPool(WRITERS);
        try {
            Callable<List<String>> file = () ->
                    Stream.generate(Ids::next).limit(EACH).map(UUID::toString).toList();
            for (var written : writers.invokeAll(
                    IntStream.range(0, WRITERS).mapToObj(any -> file).toList())) {
                assertThat(written.get()).isSorted().doesNotHaveDuplicates();
            }
        } finally {
            writers.shutdownNow();
        }
    }
}
