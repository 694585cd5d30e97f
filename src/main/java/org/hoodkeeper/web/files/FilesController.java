package org.hoodkeeper.web.files;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.exchange.ColumnLine;
import org.hoodkeeper.exchange.Exports;
import org.hoodkeeper.exchange.FileKind;
import org.hoodkeeper.exchange.ImportJob;
import org.hoodkeeper.exchange.Imports;
import org.hoodkeeper.exchange.RowRefusal;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.multipart.MultipartException;
import org.springframework.web.multipart.MultipartFile;

/** Files in and out. A file that is sent is looked at first; a person says afterwards that it shall be recorded. */
@Controller
class FilesController {

    private final Imports imports;
    private final Exports exports;
    private final Refusals refusals;
    private final Words words;
    private final MessageSource messages;

    FilesController(Imports imports, Exports exports, Refusals refusals, Words words, MessageSource messages) {
        this.imports = imports;
        this.exports = exports;
        this.refusals = refusals;
        this.words = words;
        this.messages = messages;
    }

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.EMPLOYER})
    @GetMapping("/sites/{site}/files")
    String list(Visit visit, Model page) {
        Set<Role> roles = visit.viewer().roles();
        page.addAttribute(
                "kinds",
                Stream.of(FileKind.values())
                        .map(kind -> new KindLine(kind, kind.mayBeBroughtBy(roles), kind.mayBeTakenBy(roles)))
                        .filter(line -> line.isBrought() || line.isTaken())
                        .toList());
        page.addAttribute("jobs", imports.newest(visit.viewer()));
        page.addAttribute("site", visit.siteCode());
        return "files/list";
    }

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.EMPLOYER})
    @GetMapping("/sites/{site}/files/{kind}")
    String kind(Visit visit, @PathVariable("kind") String slug, @ModelAttribute("sent") FileForm sent, Model page) {
        return show(visit, kind(visit, slug), page);
    }

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST})
    @PostMapping("/sites/{site}/files/{kind}")
    String send(
            Visit visit,
            @PathVariable("kind") String slug,
            @ModelAttribute("sent") @Nullable FileForm sent,
            BindingResult shape,
            Model page,
            HttpServletResponse response) {
        FileKind kind = kind(visit, slug);
        if (sent == null) {
            throw new MultipartException("what was sent as a file is none");
        }
        MultipartFile file = sent.file();
        if (file == null || file.isEmpty()) {
            shape.rejectValue("file", "files.choose", words.say("files.choose"));
            return show(visit, kind, page);
        }
        try (InputStream content = file.getInputStream()) {
            UUID job = imports.start(visit.viewer(), kind, ImportJob.Aim.TRY, name(file), content);
            return "redirect:/sites/" + visit.siteCode() + "/files/imports/" + job;
        } catch (Imports.TooLarge large) {
            refusals.show(large, shape, "file");
            response.setStatus(HttpStatus.CONTENT_TOO_LARGE.value());
            return show(visit, kind, page);
        } catch (IOException lost) {
            throw new UncheckedIOException(lost);
        }
    }

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST})
    @GetMapping("/sites/{site}/files/imports/{job}")
    String report(Visit visit, @PathVariable("job") UUID id, Model page) {
        ImportJob job = imports.job(visit.viewer(), id);
        List<ReportLine> lines =
                imports.refusals(visit.viewer(), id).stream().map(this::line).toList();
        page.addAttribute("job", job);
        page.addAttribute("lines", lines);
        page.addAttribute("held", imports.held(visit.viewer(), id));
        page.addAttribute("site", visit.siteCode());
        return "files/report";
    }

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST})
    @PostMapping("/sites/{site}/files/imports/{job}/record")
    String record(Visit visit, @PathVariable("job") UUID id) {
        imports.record(visit.viewer(), id);
        return "redirect:/sites/" + visit.siteCode() + "/files/imports/" + id;
    }

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.EMPLOYER})
    @GetMapping("/sites/{site}/files/{kind}.csv")
    void take(Visit visit, @PathVariable("kind") String slug, HttpServletResponse response) throws IOException {
        FileKind kind = kind(visit, slug);
        exports.require(visit.viewer(), kind);
        response.setContentType("text/csv;charset=UTF-8");
        response.setHeader(
                HttpHeaders.CONTENT_DISPOSITION,
                "attachment; filename=\"" + visit.siteCode() + "-" + kind.slug() + ".csv\"");
        OutputStream out = response.getOutputStream();
        exports.write(visit.viewer(), kind, out);
    }

    /** One row of the report in words. */
    public record ReportLine(long row, String column, String value, String why) {}

    private ReportLine line(RowRefusal refusal) {
        return new ReportLine(refusal.row(), refusal.column(), refusal.value(), words.refusal(refusal.refused()));
    }

    /** One column of the reference in words. */
    public record ColumnWords(ColumnLine line, String form, String meaning) {}

    private String show(Visit visit, FileKind kind, Model page) {
        Set<Role> roles = visit.viewer().roles();
        page.addAttribute("line", new KindLine(kind, kind.mayBeBroughtBy(roles), kind.mayBeTakenBy(roles)));
        page.addAttribute("about", optional("exchange.kind." + kind.name() + ".about"));
        page.addAttribute("columns", kind.lines().stream().map(this::worded).toList());
        page.addAttribute("largest", imports.largestMegabytes());
        page.addAttribute("site", visit.siteCode());
        return "files/kind";
    }

    private ColumnWords worded(ColumnLine line) {
        String form = words.say(line.formKey());
        String meaning = line.meaningKeys().stream()
                .map(this::optional)
                .filter(text -> !text.isEmpty())
                .findFirst()
                .orElse("");
        return new ColumnWords(
                line, line.choices().isEmpty() ? form : form + ": " + String.join(", ", line.choices()), meaning);
    }

    private String optional(String key) {
        String text = messages.getMessage(key, null, "", LocaleContextHolder.getLocale());
        return text == null ? "" : text;
    }

    /** A file that the reader neither brings nor takes is not there for that reader. */
    private static FileKind kind(Visit visit, String slug) {
        Set<Role> roles = visit.viewer().roles();
        return FileKind.ofSlug(slug)
                .filter(kind -> kind.mayBeBroughtBy(roles) || kind.mayBeTakenBy(roles))
                .orElseThrow(() -> new NotFound("exchange.kind"));
    }

    private static String name(MultipartFile file) {
        String name = file.getOriginalFilename();
        String plain = name == null ? "" : name.replaceAll("[\\p{Cntrl}/\\\\]", "_");
        return plain.length() > 120 ? plain.substring(plain.length() - 120) : plain;
    }
}
