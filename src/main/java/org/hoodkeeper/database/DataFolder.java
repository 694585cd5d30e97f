package org.hoodkeeper.database;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import org.jspecify.annotations.Nullable;

/**
 * The folder that holds the embedded database, taken by one service at a time. The operating system drops the lock with
 * the process, however that ends, so a killed service never blocks the next start.
 */
final class DataFolder implements AutoCloseable {

    private final Path folder;
    private final FileChannel channel;

    private DataFolder(Path folder, FileChannel channel) {
        this.folder = folder;
        this.channel = channel;
    }

    /** @throws CannotStart when another service has it, or when it cannot be written to */
    static DataFolder take(Path folder) {
        try {
            create(folder);
            FileChannel channel = FileChannel.open(
                    folder.resolve("hoodkeeper.lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
            if (lock(channel) == null) {
                channel.close();
                throw new CannotStart("the data folder " + folder + " is in use by another Hoodkeeper."
                        + " Stop that one first, or choose another folder with --hoodkeeper.data-dir=FOLDER.");
            }
            return new DataFolder(folder, channel);
        } catch (IOException e) {
            throw new CannotStart("the data folder " + folder + " cannot be written to (" + e
                    + "). Choose another with --hoodkeeper.data-dir=FOLDER.");
        }
    }

    /** Whoever else uses this machine has no business in here. */
    private static void create(Path folder) throws IOException {
        if (Files.isDirectory(folder)) {
            return;
        }
        Files.createDirectories(folder);
        closeToOthers(folder);
    }

    static void closeToOthers(Path folder) throws IOException {
        if (folder.getFileSystem().supportedFileAttributeViews().contains("posix")) {
            Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
        }
    }

    private static @Nullable FileLock lock(FileChannel channel) throws IOException {
        try {
            return channel.tryLock();
        } catch (OverlappingFileLockException e) {
            return null;
        }
    }

    /** Where PostgreSQL keeps its files. */
    Path cluster() {
        return folder.resolve("postgresql");
    }

    /** Where the database program is unpacked: beside the data, so that two users of one machine never share it. */
    Path program() {
        return folder.resolve("program");
    }

    Path passwords() {
        return folder.resolve("passwords.properties");
    }

    Path path() {
        return folder;
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}
