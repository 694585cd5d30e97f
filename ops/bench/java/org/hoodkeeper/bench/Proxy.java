package org.hoodkeeper.bench;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;

/** As plain as a proxy can be: each connection goes to the next instance that takes it, whoever it was before. */
final class Proxy implements AutoCloseable {

    private final ServerSocket door;
    private final List<Integer> ports;
    private final AtomicInteger next = new AtomicInteger();

    Proxy(List<Integer> ports) throws IOException {
        this.ports = List.copyOf(ports);
        this.door = new ServerSocket(0, 200, InetAddress.getLoopbackAddress());
        thread(this::welcome);
    }

    String url() {
        return "http://127.0.0.1:" + door.getLocalPort();
    }

    private void welcome() {
        while (!door.isClosed()) {
            try {
                Socket guest = door.accept();
                thread(() -> serve(guest));
            } catch (IOException closed) {
                return;
            }
        }
    }

    private void serve(Socket guest) {
        for (int tries = 0; tries < ports.size(); tries++) {
            int port = ports.get(Math.floorMod(next.getAndIncrement(), ports.size()));
            Socket instance = new Socket();
            try {
                instance.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 2_000);
            } catch (IOException gone) {
                continue;
            }
            thread(() -> pipe(guest, instance));
            pipe(instance, guest);
            return;
        }
        close(guest);
    }

    private static void pipe(Socket from, Socket to) {
        try (from;
                to) {
            InputStream in = from.getInputStream();
            in.transferTo(to.getOutputStream());
        } catch (IOException ended) {
            // one side has hung up, and so does the other
        }
    }

    private static void close(Socket socket) {
        try {
            socket.close();
        } catch (IOException gone) {
            // as intended
        }
    }

    private static void thread(Runnable work) {
        Thread thread = new Thread(work, "proxy");
        thread.setDaemon(true);
        thread.start();
    }

    @Override
    public void close() throws IOException {
        door.close();
    }
}
