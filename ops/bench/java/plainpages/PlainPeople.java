package plainpages;

import java.util.List;
import java.util.UUID;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;

interface PlainPeople extends Repository<PlainPerson, UUID> {

    PlainPerson findBySiteAndNumber(UUID site, String number);

    @Query("select s from PlainSet s, PlainCustody c where s.site = :site and c.site = :site and c.set = s.id"
            + " and c.worker = :worker order by s.label")
    List<PlainSet> setsOf(UUID site, UUID worker);
}
