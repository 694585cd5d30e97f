package org.hoodkeeper.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The database process of a data folder, found by the process file that PostgreSQL keeps there. */
final class LeftOver {

    private static final Logger LOG = LoggerFactory.getLogger(LeftOver.class);
    private static final long STOP_SECONDS = 30;

    private LeftOver() {}

    /** The running server of this cluster, if one runs. */
    static Optional<ProcessHandle> serverOf(Path cluster) {
        try {
            List<String> lines = Files.readAllLines(cluster.resolve("postmaster.pid"));
            return lines.isEmpty()
                    ? Optional.empty()
                    : ProcessHandle.of(Long.parseLong(lines.get(0).trim())).filter(LeftOver::isServer);
        } catch (IOException | NumberFormatException e) {
            // no such file, or one half written by a crash: PostgreSQL itself judges that case when it starts
            return Optional.empty();
        }
    }

    /**
     * Stops what a killed service left running. The caller holds the folder's lock, so nobody else uses it.
     *
     * @throws CannotStart when it does not end
     */
    static void stop(Path cluster) {
        serverOf(cluster).ifPresent(server -> {
            LOG.info("Taking over: stopping the database process {} that a killed service left", server.pid());
            List<ProcessHandle> children = server.descendants().toList();
            // its clients died with the service, so an orderly stop finds nobody to wait for
            server.destroy();
            if (!await(server)) {
                server.destroyForcibly();
            }
            if (!await(server) || !children.stream().allMatch(LeftOver::await)) {
                throw new CannotStart("the database process " + server.pid() + " left from an earlier run of " + cluster
                        + " does not end. Stop it, then start again.");
            }
        });
    }

    /** Waits until the process has ended. */
    static boolean await(ProcessHandle process) {
        try {
            process.onExit().get(STOP_SECONDS, TimeUnit.SECONDS);
            return true;
        } catch (TimeoutException e) {
            return false;
        } catch (ExecutionException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    /** A process number is used again after a restart of the machine: the number alone proves nothing. */
    private static boolean isServer(ProcessHandle process) {
        return process.info()
                .command()
                .map(command -> Path.of(command).getFileName().toString().startsWith("postgres"))
                .orElse(false);
    }
}
