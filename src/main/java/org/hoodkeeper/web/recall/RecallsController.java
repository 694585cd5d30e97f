package org.hoodkeeper.web.recall;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.RecallBook;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** Every recall of the site, and how many sets are still to be done. */
@Controller
class RecallsController {

    private final RecallBook book;
    private final RecallWords words;
    private final Names names;
    private final Sheets sheets;

    RecallsController(RecallBook book, RecallWords words, Names names, Sheets sheets) {
        this.book = book;
        this.words = words;
        this.names = names;
        this.sheets = sheets;
    }

    /** A recall in words. */
    public record Line(RecallBook.Notice notice, String means) {}

    @Allowed({Role.STOREKEEPER, Role.OFFICER, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/recalls")
    String show(Visit visit, Model page) {
        Instant now = sheets.now();
        Names.Book known = names.of(visit);
        List<Line> lines = book.all(visit.viewer().site(), now).stream()
                .map(notice -> new Line(notice, words.means(notice.recall(), known)))
                .toList();
        page.addAttribute("now", now);
        page.addAttribute("lines", lines);
        page.addAttribute(
                "open", lines.stream().filter(line -> line.notice().left() > 0).count());
        page.addAttribute(
                "left", lines.stream().mapToInt(line -> line.notice().left()).sum());
        page.addAttribute("records", visit.viewer().isAny(Role.STOREKEEPER, Role.OFFICER));
        return "recall/recalls";
    }
}
