package org.hoodkeeper.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The packaged service as a process of its own, on the benchmark's database, with 512 MB of heap and everything on. */
final class Service implements AutoCloseable {

    private static final Duration PATIENCE = Duration.ofMinutes(4);

    private final Process process;
    private final int port;
    private final Duration startTook;

    private Service(Process process, int port, Duration startTook) {
        this.process = process;
        this.port = port;
        this.startTook = startTook;
    }

    /** The command without its arguments: the program, as {@code ops/bench/run} packaged it. */
    static List<String> program() {
        List<String> command = new ArrayList<>();
        command.add(System.getProperty("bench.java", Path.of(System.getProperty("java.home"), "bin", "java").toString()));
        command.add("-Xmx512m");
        command.addAll(List.of(System.getProperty("bench.program", "").strip().split(" ")));
        return command;
    }

    static Service start(List<String> arguments, Path log) throws IOException, InterruptedException {
        return start(program(), arguments, log);
    }

    static Service start(List<String> program, List<String> arguments, Path log)
            throws IOException, InterruptedException {
        int port = freePort();
        List<String> command = new ArrayList<>(program);
        command.add("--server.port=" + port);
        command.addAll(arguments);
        Instant begun = Instant.now();
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.appendTo(log.toFile()))
                .start();
        Runtime.getRuntime().addShutdownHook(new Thread(process::destroyForcibly));
        HttpClient client = HttpClient.newHttpClient();
        HttpRequest ready = HttpRequest.newBuilder(
                        URI.create("http://127.0.0.1:" + port + "/actuator/health/readiness"))
                .build();
        while (true) {
            if (!process.isAlive()
                    || Duration.between(begun, Instant.now()).compareTo(PATIENCE) > 0) {
                process.destroyForcibly();
                throw new IllegalStateException("the service did not start: see " + log);
            }
            try {
                if (client.send(ready, HttpResponse.BodyHandlers.discarding()).statusCode() == 200) {
                    return new Service(process, port, Duration.between(begun, Instant.now()));
                }
            } catch (IOException notYet) {
                TimeUnit.MILLISECONDS.sleep(20);
            }
        }
    }

    int port() {
        return port;
    }

    String url() {
        return "http://127.0.0.1:" + port;
    }

    Duration startTook() {
        return startTook;
    }

    long pid() {
        return process.pid();
    }

    @Override
    public void close() {
        process.destroy();
        try {
            if (!process.waitFor(60, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static int freePort() {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
