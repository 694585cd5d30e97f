package plainpages;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.UUID;

/** A row of who has a set, for the comparator. */
@Entity
@Table(name = "kit_custody")
public class PlainCustody {

    @Id
    @Column(name = "claim_id")
    UUID claim = new UUID(0, 0);

    @Column(name = "site_id")
    UUID site = new UUID(0, 0);

    @Column(name = "set_id")
    UUID set = new UUID(0, 0);

    @Column(name = "worker_id")
    UUID worker = new UUID(0, 0);
}
