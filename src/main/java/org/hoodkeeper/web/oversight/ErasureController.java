package org.hoodkeeper.web.oversight;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.oversight.Erasures;
import org.hoodkeeper.oversight.KeepUntil;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Keeping;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.sheet.Line;
import org.hoodkeeper.web.sheet.Sheets;
import org.hoodkeeper.web.sheet.Way;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** What of one kind may be erased today and why; picked, looked over, and erased in the second step. */
@Controller
@RequestMapping("/sites/{site}/retention/{kind}")
class ErasureController {

    private static final String VIEW = "oversight/erasure";

    private final Erasures erasures;
    private final Keeping keeping;
    private final Names names;
    private final Sheets sheets;
    private final Words words;
    private final Show show;

    ErasureController(Erasures erasures, Keeping keeping, Names names, Sheets sheets, Words words, Show show) {
        this.erasures = erasures;
        this.keeping = keeping;
        this.names = names;
        this.sheets = sheets;
        this.words = words;
        this.show = show;
    }

    /** Found only by whoever may erase of it. */
    private static Kind kind(Visit visit, String text) {
        return Stream.of(Kind.values())
                .filter(kind -> kind.name().equals(text) && Erasures.mayErase(visit.viewer(), kind))
                .findFirst()
                .orElseThrow(() -> new NotFound("record.unknown", text));
    }

    @Allowed({Role.OFFICER, Role.HEALTH})
    @GetMapping
    String show(
            Visit visit, @PathVariable String kind, @RequestParam(required = false) @Nullable String from, Model page) {
        page.addAttribute("erasure", new ErasureForm(null));
        due(visit, kind(visit, kind), place(from), page);
        return VIEW;
    }

    @Allowed({Role.OFFICER, Role.HEALTH})
    @PostMapping
    ModelAndView take(
            Visit visit,
            @PathVariable String kind,
            @RequestParam(required = false) @Nullable String from,
            HttpServletRequest request,
            @Valid @ModelAttribute("erasure") ErasureForm form,
            BindingResult typed,
            Model page) {
        List<Erasures.Due> due = due(visit, kind(visit, kind), place(from), page);
        Names.Book book = names.of(visit);
        Way way = new Way(
                "erasure",
                VIEW,
                "sheet/check",
                () -> due.stream()
                        .filter(one -> form.ids().contains(one.record()))
                        .map(one -> new Line("erasure.line", line(visit, book, one)))
                        .toList(),
                () -> first(erasures.erase(visit.viewer(), form.ids(), sheets.now())),
                told -> "/sites/" + visit.siteCode() + "/retention/" + kind);
        return sheets.take(visit, request, typed, way);
    }

    private static RecordId first(List<RecordId> told) {
        return told.get(0);
    }

    private List<Erasures.Due> due(Visit visit, Kind kind, Erasures.@Nullable Place after, Model page) {
        Erasures.Looked looked = erasures.due(visit.viewer().site(), kind, after, sheets.now());
        page.addAttribute("of", kind);
        page.addAttribute("officer", visit.viewer().is(Role.OFFICER));
        page.addAttribute("further", looked.further());
        page.addAttribute("from", after == null ? null : after.text());
        Names.Book book = names.of(visit);
        page.addAttribute(
                "due",
                looked.due().stream()
                        .map(one -> Choice.named(one.record().toString(), line(visit, book, one)))
                        .toList());
        return looked.due();
    }

    private static Erasures.@Nullable Place place(@Nullable String text) {
        return text == null ? null : Erasures.Place.of(text);
    }

    private String line(Visit visit, Names.Book book, Erasures.Due due) {
        KeepUntil.Applied deciding = due.kept().deciding();
        return words.say(
                "erasure.due",
                book.of(due.subject()),
                show.instant(due.from(), visit.zone()),
                due.versions(),
                due.kept().lastDay(),
                deciding == null ? "" : deciding.rule().provenance().clause());
    }
}
