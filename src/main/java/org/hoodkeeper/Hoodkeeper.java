package org.hoodkeeper;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.scheduling.annotation.EnableScheduling;

/** Starts the service. */
@SpringBootApplication
@EnableScheduling
public class Hoodkeeper {

    public static void main(String[] args) {
        SpringApplication.run(Hoodkeeper.class, args);
    }
}
