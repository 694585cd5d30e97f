package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import jakarta.servlet.ServletException;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.evidence.Corrections;
import org.hoodkeeper.evidence.MedicalOutcomes;
import org.hoodkeeper.evidence.Postings;
import org.hoodkeeper.evidence.Symptoms;
import org.hoodkeeper.exchange.Desk;
import org.hoodkeeper.exchange.FileKind;
import org.hoodkeeper.exchange.ImportJob;
import org.hoodkeeper.exchange.WholeSite;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.extension.ExtendWith;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.boot.webmvc.test.autoconfigure.MockMvcPrint;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpMethod;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import org.springframework.test.web.servlet.request.MockMvcRequestBuilders;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;

/**
 * Secrets are planted about two people, and every page, file, answer, error and line of the log is searched for them as every
 * reader. Whom each is for stands in {@link #WALL}, from the table of duty A6 and the ruling on the wall.
 */
@SpringBootTest
@AutoConfigureMockMvc(print = MockMvcPrint.NONE)
@Import({TestPeople.class, Desk.class})
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@ExtendWith(OutputCaptureExtension.class)
class MedicalWallTest {

    /** Who reads: somebody of each role; of workers the one whom the first secrets are about, and another one. */
    private enum Reader {
        SELF(Role.WORKER),
        HEALTH(Role.HEALTH),
        OFFICER(Role.OFFICER),
        SUPERVISOR(Role.SUPERVISOR),
        /** Of the second person's employer. */
        EMPLOYER(Role.EMPLOYER),
        STOREKEEPER(Role.STOREKEEPER),
        TRAINER(Role.TRAINER),
        HYGIENIST(Role.HYGIENIST),
        ADMINISTRATOR(Role.ADMINISTRATOR),
        OTHER(Role.WORKER);

        private final Role role;

        Reader(Role role) {
            this.role = role;
        }
    }

    /**
     * {@code +} must find it, so that the walk is known to look there; {@code .} may; {@code -} never. Columns as {@link Reader}.
     * Notes: author and health role. Outcome and its dates: the person, health, officer, an employer of its own staff. Limits:
     * also the supervisor. Results by name: not the store, nor another worker; the hygienist records them.
     */
    private static final String WALL = """
            note of A           + + - - - - - - - -
            note of B           - + - - - - - - - -
            review note         - + - - - - - - - -
            why corrected       - + - - - - - - - -
            row of a file       - + - - - - - - - -
            organisation of A   + + + - - - - - - -
            organisation of B   - + + - . - - - - -
            struck organisation + + + - - - - - - -
            day of A            + + + - - - - - - -
            day of B            - + + - . - - - - -
            review day of A     + + + - - - - - - -
            review day of B     - + + - . - - - - -
            wear limit of A     + + + + - - - - - -
            wear limit of B     - + + . . - - - - -
            heat limit of A     + + + + - - - - - -
            heat limit of B     - + + + + - - - - -
            review needed       - + + - . - - - - -
            result by name      . . + . - - - + - -
            """;

    private static final Map<String, Pattern> SECRETS = new LinkedHashMap<>();

    static {
        secret("note of A", "zinnwald");
        secret("note of B", "larkspurred");
        secret("review note", "brindlewort");
        secret("why corrected", "quenelle");
        secret("row of a file", "scarified");
        secret("organisation of A", "Quillhaven");
        secret("organisation of B", "Brackenmoor");
        secret("struck organisation", "Tallowfen");
        secret("day of A", "17 oct(\\.|ubre)? 2025|2025-10-17");
        secret("day of B", "18 oct(\\.|ubre)? 2025|2025-10-18");
        secret("review day of A", "19 (aug|ago)(\\.|ust|osto)? 2031|2031-08-19");
        secret("review day of B", "21 sept?(\\.|ember|iembre)? 2031|2031-09-21");
        secret("wear limit of A", "2 h 17 min|PT2H17M|(?<![\\w.#-])137(?![\\w.-])");
        secret("wear limit of B", "4 h 23 min|PT4H23M|(?<![\\w.#-])263(?![\\w.-])");
        secret("heat limit of A", "(?<![\\w.,])23[.,]7(?![\\w])");
        secret("heat limit of B", "(?<![\\w.,])24[.,]3(?![\\w])");
        secret("review needed", "Review needed since|Hace falta una revisión desde|REVIEW_OPEN");
        secret("result by name", "Peregrina");
    }

    /** A place in a sentence that nothing was put into. */
    private static final Pattern UNFILLED = Pattern.compile("[\\s(“]\\{\\d}");

    private static void secret(String name, String pattern) {
        SECRETS.put(name, Pattern.compile(pattern, Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE));
    }

    private static final Instant DAY_OF_A = Instant.parse("2025-10-17T12:43:00Z");
    private static final Instant DAY_OF_B = Instant.parse("2025-10-18T12:44:00Z");
    private static final Instant DAY_OF_REPORT = Instant.parse("2025-10-21T12:45:00Z");

    /** What a page is asked with; of each only what it takes. */
    private static final List<Map<String, String>> ASKED = List.of(
            Map.of(),
            asked("W-1", "2025-11-05T10:00", "then"),
            asked("W-1", "2025-11-05T10:00", "now"),
            asked("W-2", "2025-11-05T10:00", "now"),
            asked("W-2", "2025-11-05T10:00", "then"),
            Map.of(
                    "worker",
                    "W-1",
                    "task",
                    "BLAST",
                    "set",
                    "H-1",
                    "from",
                    "2025-11-05T10:00Z",
                    "until",
                    "2025-11-05T16:00Z"),
            Map.of(
                    "worker",
                    "W-2",
                    "task",
                    "BLAST",
                    "set",
                    "H-1",
                    "from",
                    "2025-11-05T10:00Z",
                    "until",
                    "2025-11-05T16:00Z"),
            Map.of(
                    "worker",
                    "W-1",
                    "task",
                    "BLAST",
                    "model",
                    "HOOD-A",
                    "size",
                    "M",
                    "from",
                    "2030-11-05T10:00Z",
                    "until",
                    "2030-11-05T16:00Z"),
            Map.of(
                    "worker",
                    "W-2",
                    "task",
                    "BLAST",
                    "model",
                    "MASK-B",
                    "size",
                    "M",
                    "from",
                    "2030-11-05T10:00Z",
                    "until",
                    "2030-11-05T16:00Z",
                    "lang",
                    "es"),
            Map.of("about", "SET", "name", "H-1", "from", "2025-10-01", "until", "2025-11-30", "lang", "es"),
            Map.of("about", "TASK", "name", "BLAST", "from", "2025-10-01", "until", "2025-11-30"),
            Map.of("about", "PLACE", "name", "North store", "from", "2025-10-01", "until", "2025-11-30"),
            Map.of("kind", "MEDICAL_OUTCOME", "sort", "WRITE", "text", "medical", "q", "Ada"),
            Map.of("kind", "SYMPTOM_REPORT", "only", "late", "sort", "SEEN", "verdict", "NOT_CLEARED"),
            Map.of("what", "SETS", "sheet", "A4_70_37", "first", "1"),
            Map.of("task", "BLAST", "lang", "es"));

    private static Map<String, String> asked(String number, String at, String known) {
        Map<String, String> asked = new LinkedHashMap<>();
        asked.put("worker", number);
        asked.put("number", number);
        asked.put("about", "WORKER");
        asked.put("name", number);
        asked.put("task", "BLAST");
        asked.put("set", "H-1");
        asked.put("from", "2025-10-01");
        asked.put("until", "2025-11-30");
        asked.put("at", at);
        asked.put("known", known);
        return asked;
    }

    @Autowired
    @Qualifier("requestMappingHandlerMapping") RequestMappingHandlerMapping mappings;

    @Autowired
    MockMvc mvc;

    @Autowired
    TestPeople people;

    @Autowired
    People workers;

    @Autowired
    Programme programme;

    @Autowired
    Desk desk;

    @Autowired
    MedicalOutcomes outcomes;

    @Autowired
    Symptoms symptoms;

    @Autowired
    Corrections corrections;

    @Autowired
    Postings postings;

    @Autowired
    JdbcTemplate jdbc;

    @Autowired
    PlatformTransactionManager transactions;

    private Site site;
    private Person bystander;
    private String job = "";
    private final Map<Reader, Person> readers = new EnumMap<>(Reader.class);
    private final Set<String> records = new LinkedHashSet<>();
    private final Map<Reader, Map<String, Set<String>>> found = new EnumMap<>(Reader.class);
    private final Set<String> faults = new TreeSet<>();
    private int walked;

    @BeforeAll
    void secretsAboutTwoPeople() {
        site = people.site();
        WholeSite.FILES.forEach((kind, text) ->
                assertThat(desk.send(site, kind, text).codes()).as(kind.name()).isEmpty());
        WorkerId a = SiteBinding.in(
                site.id(), () -> workers.byNumber(site.id(), "W-1").id());
        WorkerId b = SiteBinding.in(
                site.id(), () -> workers.byNumber(site.id(), "W-2").id());
        WorkerId c = SiteBinding.in(
                site.id(), () -> workers.byNumber(site.id(), "W-3").id());
        people.on(site, () -> {
            for (Reader reader : Reader.values()) {
                readers.put(
                        reader,
                        switch (reader) {
                            case SELF -> people.person(List.of(RoleGrant.worker(site.id(), a)));
                            case OTHER -> people.person(List.of(RoleGrant.worker(site.id(), c)));
                            case EMPLOYER ->
                                people.person(List.of(RoleGrant.employer(site.id(), "Dustless Contracts")));
                            default -> people.person(site, reader.role);
                        });
            }
            bystander = people.person(site, Role.TRAINER);
            plant(a, b);
        });
        assertThat(desk.send(
                                people.viewer(site, readers.get(Reader.HEALTH)),
                                FileKind.MEDICAL_OUTCOMES,
                                ImportJob.Aim.TRY,
                                new ByteArrayInputStream("""
                                        source_id,worker,at,result,never_alone
                                        MO-9,W-1,2025-03-01T09:00+00:00,scarified lung,no
                                        """.getBytes(StandardCharsets.UTF_8)))
                        .codes())
                .hasSize(1);
        assertThat(desk.send(site, FileKind.EXPOSURE_RESULTS, """
                source_id,task,substance,at,value,unit,below_detection,minutes,method,person,laboratory,group,period,parts
                X-9,BLAST,silica,2025-05-24T09:00+01:00,0.41,mg/m3,no,240,MDHS 101,Peregrina,,cutters,shift,
                """).codes()).isEmpty();
        assertThat(desk.send(site, FileKind.WEARS, """
                source_id,worker,set,task,from,until,step
                WE-8,W-1,H-1,BLAST,2025-11-05T07:00+00:00,2025-11-05T13:30+00:00,whole
                WE-9,W-2,H-1,BLAST,2025-11-06T07:00+00:00,2025-11-06T13:30+00:00,whole
                """).codes()).isEmpty();
        SiteBinding.run(
                site.id(),
                () -> new TransactionTemplate(transactions).executeWithoutResult(status -> {
                    records.addAll(jdbc.queryForList(
                            "select id::text from ledger_record where site_id = ? and (kind in (?, ?, ?)"
                                    + " or kind = ? and body::text like '%2025-11%') order by id",
                            String.class,
                            site.id().value(),
                            Kind.MEDICAL_OUTCOME.number(),
                            Kind.SYMPTOM_REPORT.number(),
                            Kind.EXPOSURE_RESULT.number(),
                            Kind.WEAR.number()));
                    records.addAll(jdbc.queryForList(
                            "select id::text from ledger_record where site_id = ? and kind = ? order by id desc limit 2",
                            String.class,
                            site.id().value(),
                            Kind.WEAR.number()));
                    job = jdbc.queryForObject(
                            "select id::text from import_job where site_id = ? and state = 'REFUSED' limit 1",
                            String.class,
                            site.id().value());
                }));
    }

    private void plant(WorkerId a, WorkerId b) {
        Author health = author(Reader.HEALTH);
        RecordId struck = outcomes.record(health, a, outcome("Tallowfen", 137, "23.7", "2031-08-19"), DAY_OF_A, null);
        corrections.correct(
                people.viewer(site, readers.get(Reader.HEALTH)),
                struck,
                Draft.of(outcome("Quillhaven", 137, "23.7", "2031-08-19"), a, DAY_OF_A),
                "mixed up with the quenelle file");
        outcomes.record(health, b, outcome("Brackenmoor", 263, "24.3", "2031-09-21"), DAY_OF_B, null);
        RecordId report = symptoms.report(author(Reader.SELF), a, "zinnwald cough at night", DAY_OF_A, null);
        symptoms.review(health, report, "sent to the brindlewort ward", DAY_OF_A, null);
        symptoms.report(author(Reader.SUPERVISOR), b, "larkspurred wheeze on stairs", DAY_OF_REPORT, null);
        postings.post(
                health, a, programme.task(site.id(), "BLAST").id(), Instant.parse("2026-03-01T00:00:00Z"), null, null);
    }

    private static MedicalOutcome outcome(String organisation, int minutes, String heat, String review) {
        return new MedicalOutcome(
                MedicalOutcome.Result.FIT_WITH_LIMITS,
                Set.of(InterfaceType.POWERED_HOOD),
                minutes,
                new BigDecimal(heat),
                MedicalOutcome.WorkRate.MODERATE,
                true,
                LocalDate.parse(review),
                organisation);
    }

    private Author author(Reader reader) {
        return Author.at(people.viewer(site, readers.get(reader)));
    }

    @Test
    void everybodyFindsWhatIsForThemAndNothingElse(CapturedOutput log) throws Exception {
        for (Map.Entry<Mappings.Route, HandlerMethod> one :
                Mappings.handlers(mappings).entrySet()) {
            for (Reader reader : Reader.values()) {
                walk(one.getKey(), one.getValue(), reader);
            }
        }
        assertThat(walked).as("pages that were looked at").isGreaterThan(3_000);
        List<String> wrong = new ArrayList<>();
        WALL.lines().forEach(line -> {
            String secret = line.substring(0, 19).strip();
            String[] cells = line.substring(19).strip().split(" ");
            assertThat(cells).as(secret).hasSameSizeAs(Reader.values());
            assertThat(SECRETS).containsKey(secret);
            for (Reader reader : Reader.values()) {
                Set<String> places = found.getOrDefault(reader, Map.of()).getOrDefault(secret, Set.of());
                String cell = cells[reader.ordinal()];
                if (cell.equals("-") && !places.isEmpty()) {
                    wrong.add(reader + " is shown the " + secret + " at " + places);
                } else if (cell.equals("+") && places.isEmpty()) {
                    wrong.add(reader + " finds the " + secret + " nowhere");
                }
            }
        });
        assertThat(wrong).isEmpty();
        assertThat(faults).isEmpty();
        for (String secret : List.of(
                "note of A",
                "note of B",
                "review note",
                "why corrected",
                "row of a file",
                "organisation of A",
                "organisation of B",
                "struck organisation",
                "result by name")) {
            assertThat(SECRETS.get(secret).matcher(log.getAll()).find())
                    .as(secret + " in the log")
                    .isFalse();
        }
    }

    private void walk(Mappings.Route route, HandlerMethod handler, Reader reader) throws Exception {
        boolean reads = route.method().equals("GET");
        Set<String> fields = Mappings.fields(handler).keySet();
        for (String path : paths(route.pattern())) {
            if (!reads) {
                // nothing typed, and nonsense: what a refusal repeats or adds
                if (look(route, path, Map.of(), reader, "*/*") == 403) {
                    return;
                }
                Map<String, String> nonsense = new LinkedHashMap<>();
                fields.forEach(field -> nonsense.put(field, "x"));
                look(route, path, nonsense, reader, "*/*");
                continue;
            }
            Set<Map<String, String>> questions = new LinkedHashSet<>();
            ASKED.forEach(asked -> questions.add(taken(asked, fields)));
            Map<String, String> nonsense = new LinkedHashMap<>();
            fields.forEach(field -> nonsense.put(field, "W-1'"));
            questions.add(nonsense);
            for (Map<String, String> question : questions) {
                int status = look(route, path, question, reader, "*/*");
                if (status == 403) {
                    return;
                }
                if (route.pattern().endsWith("/ask")) {
                    look(route, path, question, reader, "text/plain");
                }
            }
        }
    }

    private static Map<String, String> taken(Map<String, String> asked, Set<String> fields) {
        Map<String, String> taken = new LinkedHashMap<>();
        asked.forEach((name, value) -> {
            if (fields.contains(name)) {
                taken.put(name, value);
            }
        });
        if (asked.containsKey("lang") && (!taken.isEmpty() || fields.isEmpty())) {
            taken.put("lang", "es");
        }
        return taken;
    }

    private int look(Mappings.Route route, String path, Map<String, String> question, Reader reader, String accept)
            throws Exception {
        MockHttpServletRequestBuilder request =
                MockMvcRequestBuilders.request(HttpMethod.valueOf(route.method()), URI.create(path));
        question.forEach(request::param);
        if (!route.method().equals("GET")) {
            request.param("formKey", UUID.randomUUID().toString())
                    .param("step", "check")
                    .with(csrf());
        }
        Person person = readers.get(reader);
        request.accept(accept)
                .with(authentication(UsernamePasswordAuthenticationToken.authenticated(
                        new KnownAccount(person.id().value(), person.login(), person.name()), null, List.of())));
        MockHttpServletResponse response;
        try {
            response = mvc.perform(request).andReturn().getResponse();
        } catch (ServletException | RuntimeException fault) {
            faults.add(reader + " " + route + " " + question + ": " + fault.getMessage());
            return 500;
        }
        walked++;
        String text = plain(headers(response) + "\n" + body(response));
        if (UNFILLED.matcher(text).find()) {
            faults.add(reader + " " + route.pattern() + ": a sentence lacks what was taken out of it");
        }
        SECRETS.forEach((name, secret) -> {
            Matcher match = secret.matcher(text);
            if (match.find()) {
                Set<String> places = found.computeIfAbsent(reader, r -> new LinkedHashMap<>())
                        .computeIfAbsent(name, n -> new TreeSet<>());
                if (places.size() < 8) {
                    places.add(route.method() + " " + path.replace(site.code(), "s") + " " + question + " …"
                            + text.substring(Math.max(0, match.start() - 60), Math.min(text.length(), match.end() + 20))
                                    .replaceAll("\\s+", " ")
                            + "…");
                }
            }
        });
        return response.getStatus();
    }

    private static String headers(MockHttpServletResponse response) {
        StringBuilder all = new StringBuilder(String.valueOf(response.getRedirectedUrl()));
        response.getHeaderNames()
                .forEach(name -> all.append('\n').append(name).append(": ").append(response.getHeaders(name)));
        return all.toString();
    }

    private static String body(MockHttpServletResponse response) throws IOException {
        byte[] bytes = response.getContentAsByteArray();
        if (String.valueOf(response.getContentType()).startsWith("application/pdf")) {
            try (PDDocument paper = Loader.loadPDF(bytes)) {
                return new PDFTextStripper().getText(paper);
            }
        }
        return new String(bytes, StandardCharsets.UTF_8);
    }

    /** Spaces that do not break are spaces. */
    private static String plain(String text) {
        return text.replaceAll("&nbsp;|[\\u00a0\\u202f\\u2009\\s]+", " ");
    }

    /** The address with each thing that it can name; every combination where it names several. */
    private List<String> paths(String pattern) {
        List<String> paths = List.of(pattern);
        Matcher variables = Pattern.compile("\\{\\*?(\\w+)}").matcher(pattern);
        while (variables.find()) {
            String variable = variables.group();
            List<String> named = named(variables.group(1), pattern);
            paths = paths.stream()
                    .flatMap(path -> named.stream().map(name -> path.replace(variable, name)))
                    .toList();
        }
        return paths;
    }

    private List<String> named(String variable, String pattern) {
        return switch (variable) {
            case "site" -> List.of(site.code());
            case "number" -> List.of("W-1", "W-2");
            case "record", "report" -> List.copyOf(records);
            case "job" -> List.of(job);
            case "kind" -> Stream.of(FileKind.values()).map(FileKind::slug).toList();
            case "label" -> List.of("H-1");
            case "code" ->
                pattern.contains("/instruments/")
                        ? List.of("IND-1")
                        : pattern.contains("/supplies/")
                                ? List.of("AIR-1")
                                : pattern.contains("/models/") ? List.of("HOOD-A") : List.of("BLAST");
            case "sort" -> List.of("control-failure", "protection-gap");
            case "key" -> List.of("notice.period");
            case "account" -> List.of(bystander.id().value().toString());
            case "role" -> List.of("TRAINER");
            default -> List.of("00000000-0000-7000-8000-000000000000");
        };
    }

    /** Everything that the wall hides is looked for: no line of the table can be dropped without a word. */
    @Test
    void everySecretHasItsLine() {
        assertThat(WALL.lines().map(line -> line.substring(0, 19).strip())).containsExactlyElementsOf(SECRETS.keySet());
        assertThat(Stream.of(Reader.values()).map(reader -> reader.role)).contains(Role.values());
        assertThat(Mappings.handlers(mappings).values().stream()
                        .filter(handler -> handler.hasMethodAnnotation(Allowed.class)))
                .hasSizeGreaterThan(100);
    }
}
