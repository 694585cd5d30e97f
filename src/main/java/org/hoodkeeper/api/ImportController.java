package org.hoodkeeper.api;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.exchange.Exports;
import org.hoodkeeper.exchange.FileKind;
import org.hoodkeeper.exchange.ImportJob;
import org.hoodkeeper.exchange.Imports;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.multipart.MultipartFile;

/**
 * Files in and out for commands. An import that is not over within half a minute goes on: the answer says where to ask again.
 * With {@code Accept: text/plain} the same comes in sentences, the state's name first.
 */
@RestController
class ImportController {

    private static final Duration PATIENCE = Duration.ofSeconds(25);
    private static final String JSON = "application/json";
    private static final String TEXT = "text/plain;charset=UTF-8";

    private final Imports imports;
    private final Exports exports;
    private final Words words;

    ImportController(Imports imports, Exports exports, Words words) {
        this.imports = imports;
        this.exports = exports;
        this.words = words;
    }

    /**
     * What came of a file.
     *
     * @param refusedRows how many rows are refused; {@code refused} names the first thousand reasons
     * @param unjudged readings kept that do not count, since their instrument was not valid
     * @param disputed sets held since two people are said to have them
     * @param held labels of all sets that the file put on hold
     */
    record Body(
            UUID id,
            String state,
            long rows,
            long checked,
            long recorded,
            long already,
            long refusedRows,
            long unjudged,
            long disputed,
            List<String> held,
            List<Refusal> refused) {}

    record Refusal(long row, String column, String value, String why) {}

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST})
    @PostMapping(
            value = "/api/sites/{site}/import/{kind}",
            consumes = MediaType.MULTIPART_FORM_DATA_VALUE,
            produces = {JSON, TEXT})
    ResponseEntity<?> form(
            Visit visit,
            @PathVariable("kind") String slug,
            @RequestParam(defaultValue = "false") boolean dryRun,
            @RequestParam("file") MultipartFile file,
            HttpServletRequest request)
            throws IOException {
        try (InputStream content = file.getInputStream()) {
            return take(visit, slug, dryRun, content, request);
        }
    }

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST})
    @PostMapping(
            value = "/api/sites/{site}/import/{kind}",
            consumes = "text/csv",
            produces = {JSON, TEXT})
    ResponseEntity<?> body(
            Visit visit,
            @PathVariable("kind") String slug,
            @RequestParam(defaultValue = "false") boolean dryRun,
            HttpServletRequest request)
            throws IOException {
        return take(visit, slug, dryRun, request.getInputStream(), request);
    }

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST})
    @GetMapping(
            value = "/api/sites/{site}/import/jobs/{job}",
            produces = {JSON, TEXT})
    ResponseEntity<?> again(Visit visit, @PathVariable("job") UUID id, HttpServletRequest request) {
        return answer(visit, id, request);
    }

    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.EMPLOYER})
    @GetMapping("/api/sites/{site}/export/{kind}.csv")
    void export(Visit visit, @PathVariable("kind") String slug, HttpServletResponse response) throws IOException {
        FileKind kind = kind(slug);
        exports.require(visit.viewer(), kind);
        response.setContentType("text/csv;charset=UTF-8");
        exports.write(visit.viewer(), kind, response.getOutputStream());
    }

    @ExceptionHandler
    ResponseEntity<?> large(Imports.TooLarge large) {
        return ResponseEntity.status(HttpStatus.CONTENT_TOO_LARGE)
                .contentType(MediaType.TEXT_PLAIN)
                .body(words.refusal(large));
    }

    private ResponseEntity<?> take(
            Visit visit, String slug, boolean dryRun, InputStream content, HttpServletRequest request) {
        ImportJob.Aim aim = dryRun ? ImportJob.Aim.TRY : ImportJob.Aim.RECORD;
        UUID job = imports.start(visit.viewer(), kind(slug), aim, null, content);
        return answer(visit, job, request);
    }

    private ResponseEntity<?> answer(Visit visit, UUID id, HttpServletRequest request) {
        ImportJob job = imports.await(visit.viewer(), id, PATIENCE);
        List<Refusal> refused = imports.refusals(visit.viewer(), id).stream()
                .map(one -> new Refusal(one.row(), one.column(), one.value(), words.refusal(one.refused())))
                .toList();
        ResponseEntity.BodyBuilder answer = ResponseEntity.status(status(job.state()))
                .header(HttpHeaders.LOCATION, "/api/sites/" + visit.siteCode() + "/import/jobs/" + id);
        Body body = new Body(
                id,
                job.state().name(),
                job.rows(),
                job.checked(),
                job.recorded(),
                job.already(),
                job.refused(),
                job.unjudged(),
                job.disputed(),
                imports.held(visit.viewer(), id),
                refused);
        return wantsText(request)
                ? answer.contentType(MediaType.parseMediaType(TEXT)).body(sentences(job, body))
                : answer.contentType(MediaType.APPLICATION_JSON).body(body);
    }

    private static HttpStatus status(ImportJob.State state) {
        return switch (state) {
            case READY, RECORDED -> HttpStatus.OK;
            case REFUSED -> HttpStatus.UNPROCESSABLE_CONTENT;
            case BROKEN_OFF -> HttpStatus.SERVICE_UNAVAILABLE;
            case WAITING, READING, COMPARING, RECORDING -> HttpStatus.ACCEPTED;
        };
    }

    private static boolean wantsText(HttpServletRequest request) {
        @Nullable String accept = request.getHeader(HttpHeaders.ACCEPT);
        return accept != null && accept.startsWith("text/plain");
    }

    private String sentences(ImportJob job, Body body) {
        String first = body.state() + " " + body.id();
        String summary = words.say(
                "files.summary." + body.state(),
                job.rows(),
                job.checked(),
                job.recorded(),
                job.already(),
                job.refused(),
                job.fresh());
        Stream<String> notes = Stream.of(
                        job.unjudged() > 0 ? words.say("files.unjudged", job.unjudged()) : "",
                        job.disputed() > 0 ? words.say("files.disputed", job.disputed()) : "",
                        body.held().isEmpty() ? "" : words.say("files.held", String.join(", ", body.held())))
                .filter(note -> !note.isEmpty());
        Stream<String> rows = body.refused().stream()
                .map(one -> words.say(
                        one.column().isEmpty() ? "files.row" : "files.rowColumn",
                        String.valueOf(one.row()),
                        one.column(),
                        one.value(),
                        one.why()));
        return Stream.of(Stream.of(first, summary), notes, rows)
                .flatMap(lines -> lines)
                .collect(Collectors.joining("\n", "", "\n"));
    }

    private static FileKind kind(String slug) {
        return FileKind.ofSlug(slug).orElseThrow(() -> new NotFound("exchange.kind"));
    }
}
