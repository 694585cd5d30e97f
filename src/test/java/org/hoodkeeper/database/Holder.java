package org.hoodkeeper.database;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.Statement;
import java.util.Map;

/** A process of its own that holds a data folder until it is killed: writes one row and says so. */
final class Holder {

    static final String READY = "committed";

    private Holder() {}

    public static void main(String[] arguments) throws Exception {
        EmbeddedDatabase database = EmbeddedDatabase.start(Path.of(arguments[0]), 0, Map.of());
        try (Connection owner = database.database().owner().connect();
                Statement statement = owner.createStatement()) {
            statement.execute(
                    "create table if not exists kept (words text); insert into kept values ('before the kill')");
        }
        System.out.println(READY);
        Thread.sleep(Long.MAX_VALUE);
    }
}
