package org.hoodkeeper.database;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.Properties;

/** Random passwords of the embedded database's roles, made once per data folder and readable by its owner only. */
final class Passwords {

    private static final int BYTES = 24;

    private final Properties byRole;

    private Passwords(Properties byRole) {
        this.byRole = byRole;
    }

    static Passwords of(Path file, String... roles) throws IOException {
        Properties byRole = new Properties();
        if (Files.exists(file)) {
            try (Reader reader = Files.newBufferedReader(file)) {
                byRole.load(reader);
            }
            return new Passwords(byRole);
        }
        SecureRandom random = new SecureRandom();
        for (String role : roles) {
            byte[] password = new byte[BYTES];
            random.nextBytes(password);
            byRole.setProperty(role, HexFormat.of().formatHex(password));
        }
        write(file, byRole);
        return new Passwords(byRole);
    }

    String of(String role) {
        String password = byRole.getProperty(role);
        if (password == null) {
            throw new IllegalStateException("no password is kept for " + role);
        }
        return password;
    }

    /** Closed to others before the first byte is in it, and complete before it has its name. */
    private static void write(Path file, Properties byRole) throws IOException {
        Path unnamed = file.resolveSibling(file.getFileName() + ".new");
        Files.deleteIfExists(unnamed);
        if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
            Files.createFile(
                    unnamed, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
        }
        try (Writer writer = Files.newBufferedWriter(unnamed)) {
            byRole.store(writer, "Roles of the database in this folder");
        }
        Files.move(unnamed, file);
    }
}
