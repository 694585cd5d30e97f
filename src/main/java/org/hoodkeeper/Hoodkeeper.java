package org.hoodkeeper;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.boot.data.autoconfigure.web.DataWebAutoConfiguration;
import org.springframework.scheduling.annotation.EnableScheduling;

/** Starts the service. No page takes data of an interface's own making, so what resolves those stays out, with its warnings. */
@SpringBootApplication(exclude = DataWebAutoConfiguration.class)
@EnableScheduling
public class Hoodkeeper {

    public static void main(String[] args) {
        SpringApplication.run(Hoodkeeper.class, args);
    }
}
