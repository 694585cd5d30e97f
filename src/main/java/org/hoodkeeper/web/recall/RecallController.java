package org.hoodkeeper.web.recall;

import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.RecallBook;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;

/** One recall: who has it in hand, which sets have it, which had it and who wore them, and what is done where. */
@Controller
class RecallController {

    private final RecallBook book;
    private final RecallWords words;
    private final Names names;
    private final Sheets sheets;

    RecallController(RecallBook book, RecallWords words, Names names, Sheets sheets) {
        this.book = book;
        this.words = words;
        this.names = names;
        this.sheets = sheets;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/recalls/{record}")
    String show(Visit visit, @PathVariable UUID record, Model page) {
        Names.Book known = names.of(visit);
        RecallBook.Whole whole = book.one(visit.viewer().site(), new RecordId(record), sheets.now());
        page.addAttribute("whole", whole);
        page.addAttribute("means", words.means(whole.notice().recall(), known));
        page.addAttribute("names", known);
        page.addAttribute("decides", visit.viewer().is(Role.OFFICER));
        page.addAttribute("opens", visit.viewer().isAny(Role.STOREKEEPER, Role.OFFICER));
        return "recall/recall";
    }
}
