package plainpages;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** A row of a person, for the comparator. */
@Entity
@Table(name = "worker")
public class PlainPerson {

    @Id
    UUID id = new UUID(0, 0);

    @Column(name = "site_id")
    UUID site = new UUID(0, 0);

    String number = "";
    String name = "";

    @Nullable String employer;

    public String getNumber() {
        return number;
    }

    public String getName() {
        return name;
    }

    public @Nullable String getEmployer() {
        return employer;
    }
}
