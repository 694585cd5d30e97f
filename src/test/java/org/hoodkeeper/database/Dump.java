package org.hoodkeeper.database;

import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.postgresql.PGConnection;

/** Everything that a copy of the whole database would hold, read past every grant: each row of each table, as text. */
public final class Dump {

    private Dump() {}

    /** The tables in which a text stands, readable or as bytes, of a part the whole; none when it is nowhere. */
    public static List<String> tablesWith(String secret) throws SQLException {
        Set<String> found = new LinkedHashSet<>();
        try (Connection superuser = TestDatabase.asSuperuser()) {
            for (Map.Entry<String, String> table : tables(superuser).entrySet()) {
                Search search = new Search(secret);
                try {
                    superuser
                            .unwrap(PGConnection.class)
                            .getCopyAPI()
                            .copyOut("copy (select t::text from only " + table.getKey() + " t) to stdout", search);
                } catch (java.io.IOException never) {
                    throw new IllegalStateException(never);
                }
                if (search.found) {
                    found.add(table.getValue());
                }
            }
        }
        return List.copyOf(found);
    }

    private static Map<String, String> tables(Connection superuser) throws SQLException {
        Map<String, String> tables = new LinkedHashMap<>();
        try (Statement statement = superuser.createStatement();
                ResultSet row = statement.executeQuery("""
                        select c.oid::regclass::text, coalesce(pg_partition_root(c.oid), c.oid)::regclass::text from pg_class c join pg_namespace n on n.oid = c.relnamespace
                        where c.relkind in ('r', 'm') and n.nspname <> 'information_schema' and n.nspname !~ '^pg_'
                        order by 1""")) {
            while (row.next()) {
                tables.put(row.getString(1), row.getString(2));
            }
        }
        return tables;
    }

    /** A copy comes row by row. */
    private static final class Search extends OutputStream {

        private final String secret;
        private final String asBytes;
        private boolean found;

        Search(String secret) {
            this.secret = secret;
            this.asBytes = HexFormat.of().formatHex(secret.getBytes(StandardCharsets.UTF_8));
        }

        @Override
        public void write(int one) {
            throw new UnsupportedOperationException("rows come whole");
        }

        @Override
        public void write(byte[] bytes, int from, int length) {
            String row = new String(bytes, from, length, StandardCharsets.UTF_8);
            found |= row.contains(secret) || row.contains(asBytes);
        }
    }
}
