package plainpages;

import java.util.UUID;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;

@Controller
class PlainController {

    private final PlainPeople people;

    PlainController(PlainPeople people) {
        this.people = people;
    }

    @GetMapping("/plain/{site}/{number}")
    String person(@PathVariable UUID site, @PathVariable String number, Model page) {
        PlainPerson person = people.findBySiteAndNumber(site, number);
        page.addAttribute("person", person);
        page.addAttribute("sets", people.setsOf(site, person.id));
        return "person";
    }
}
