package org.hoodkeeper.web.worker;

import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** What the site holds about the reader: a page of its own, so that the first page of a day carries nothing but the day. */
@Controller
class MyRecordsController {

    private final Mine mine;
    private final MyRecords records;

    MyRecordsController(Mine mine, MyRecords records) {
        this.mine = mine;
        this.records = records;
    }

    @Allowed(Role.WORKER)
    @GetMapping("/sites/{site}/today/records")
    String show(Visit visit, Model page) {
        MyRecords.Newest newest = records.of(visit, mine.self(visit), mine.now());
        page.addAttribute("records", newest.lines());
        page.addAttribute("cut", newest.isCut());
        return "worker/records";
    }
}
