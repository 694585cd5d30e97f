package org.hoodkeeper.bench;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.ledger.BenchChain;

/**
 * Three instances on one database behind a plain proxy, people at work, and one instance is stopped: counts what failed, who was
 * signed out, and whether anything was sealed twice.
 */
public final class Instances {

    private static final String CODE = "three";
    private static final int PEOPLE = 6;

    private Instances() {}

    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments.length > 0 ? arguments[0] : "target/bench/instances");
        Files.createDirectories(folder);
        try (BenchDatabase database =
                BenchDatabase.start(folder.resolve("data").toAbsolutePath())) {
            Service.start(database.arguments(), folder.resolve("0.log")).close();
            Generator.Made made = new Generator(database, new Size(CODE, 200, 20_000, 0, 11)).make();
            try (Service one = Service.start(database.arguments(), folder.resolve("1.log"));
                    Service two = Service.start(database.arguments(), folder.resolve("2.log"));
                    Service three = Service.start(database.arguments(), folder.resolve("3.log"));
                    Proxy proxy = new Proxy(List.of(one.port(), two.port(), three.port()))) {
                work(proxy, two);
            }
            try (Connection connection = database.superuser()) {
                System.out.println("chain afterwards: " + BenchChain.check(database.appSource(), made.site()));
            }
            try (Connection connection = database.superuser();
                    Statement statement = connection.createStatement();
                    ResultSet row = statement.executeQuery(
                            "select count(*) - count(distinct (s.site_id, u.id)) from ledger_seal s, unnest(s.entries) u(id)")) {
                row.next();
                System.out.println("entries sealed twice: " + row.getLong(1));
            }
        }
        System.exit(0);
    }

    private static void work(Proxy proxy, Service stopped) throws Exception {
        List<Guest> guests = new ArrayList<>();
        for (int i = 0; i < PEOPLE; i++) {
            guests.add(Guest.signIn(proxy.url(), Generator.login(CODE, i)));
        }
        AtomicBoolean over = new AtomicBoolean();
        AtomicInteger answered = new AtomicInteger();
        AtomicInteger failed = new AtomicInteger();
        AtomicInteger signedOut = new AtomicInteger();
        AtomicReference<String> why = new AtomicReference<>("");
        List<Thread> threads = new ArrayList<>();
        for (Guest guest : guests) {
            Thread thread = new Thread(() -> {
                while (!over.get()) {
                    try {
                        HttpResponse<String> page = guest.get("/sites/" + CODE + "/today", "text/html");
                        if (page.statusCode() == 302) {
                            signedOut.incrementAndGet();
                        } else if (page.statusCode() != 200) {
                            failed.incrementAndGet();
                            why.set("status " + page.statusCode());
                        }
                        answered.incrementAndGet();
                    } catch (java.io.IOException | InterruptedException e) {
                        failed.incrementAndGet();
                        why.set(e.toString());
                    }
                }
            });
            thread.start();
            threads.add(thread);
        }
        Thread.sleep(15_000);
        int before = answered.get();
        stopped.close();
        int meanwhile = answered.get() - before;
        Thread.sleep(15_000);
        over.set(true);
        for (Thread thread : threads) {
            thread.join();
        }
        System.out.printf(
                "%d people, %d requests (%d while one of three instances stopped): %d failed %s, %d signed out%n",
                PEOPLE, answered.get(), meanwhile, failed.get(), why.get(), signedOut.get());
    }
}
