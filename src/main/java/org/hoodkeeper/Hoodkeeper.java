package org.hoodkeeper;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** Starts the service. */
@SpringBootApplication
public class Hoodkeeper {

    public static void main(String[] args) {
        SpringApplication.run(Hoodkeeper.class, args);
    }
}
