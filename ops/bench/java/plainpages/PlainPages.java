package plainpages;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/**
 * What a person's page costs where nobody signs in and nothing is judged: a layout, two queries through JPA, the same tables.
 * Run by the benchmark beside the service; its settings come as arguments. In a package of its own: the service takes in
 * whatever lies in its packages.
 */
@SpringBootApplication
public class PlainPages {

    public static void main(String[] arguments) {
        SpringApplication.run(PlainPages.class, arguments);
    }
}
