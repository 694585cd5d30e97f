package plainpages;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.UUID;

/** A row of a set, for the comparator. */
@Entity
@Table(name = "kit_set")
public class PlainSet {

    @Id
    UUID id = new UUID(0, 0);

    @Column(name = "site_id")
    UUID site = new UUID(0, 0);

    String label = "";

    public String getLabel() {
        return label;
    }
}
