package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.Temporal;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.exchange.Desk;
import org.hoodkeeper.exchange.WholeSite;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Site;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.boot.webmvc.test.autoconfigure.MockMvcPrint;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpMethod;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.web.firewall.RequestRejectedException;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.MvcResult;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import org.springframework.test.web.servlet.request.MockMvcRequestBuilders;
import org.springframework.test.web.servlet.request.RequestPostProcessor;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;

/**
 * Nothing that a person can type brings down a page: every field of every mapping takes nonsense, alone among sensible
 * neighbours and together with all others, and so does every part of every address.
 */
@SpringBootTest
@AutoConfigureMockMvc(print = MockMvcPrint.NONE)
@Import({TestPeople.class, Desk.class})
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class NonsenseTest {

    private static final List<String> TEXTS = List.of(
            "\u0000",
            "'; drop table worker; --",
            "${7*7} #{x} {0} {",
            "\ud83e\udd3f \u202e\u0301 \ud800",
            "a;b;c;d;e;f;g;h\n=1;;;\n;;",
            "x".repeat(70_000));

    private static final List<String> FIGURES = List.of(
            "\u0000", "-1", "99999999999999999999", "1e400", "1e-400", "1e999999999", "NaN", "x".repeat(70_000));

    private static final List<String> TIMES = List.of(
            "-999999999-01-01",
            "+999999999-12-31",
            "9999-12-31",
            "2025-02-30",
            "-999999999-01-01T00:00",
            "+999999999-12-31T23:59",
            "9999-12-31T23:59",
            "0001-01-01T00:00",
            "+999999999-12-31T23:59:59+18:00",
            "-999999999-01-01T00:00:00-18:00",
            "9999-12-31T23:59:59-18:00");

    private static final List<String> IDS =
            List.of("\u0000", "1-1-1-1-1", "00000000-0000-7000-8000-000000000000", "x".repeat(70_000));

    /** For every field of a page at once. */
    private static final List<String> ALL = List.of(
            "",
            " ",
            "\u0000",
            "-1",
            "1e999999999",
            "+999999999-12-31T23:59:59+18:00",
            "${7*7} #{x} {0} {",
            "1-1-1-1-1");

    private static final List<String> IN_PATHS = List.of(
            "-1",
            "%00",
            "a%00b",
            "x".repeat(3_000),
            "\u00e9\ud83e\udd3f",
            "' or 1=1 --",
            "%",
            "..",
            "..%2f..",
            "a b",
            "1-1-1-1-1");

    @Autowired
    @Qualifier("requestMappingHandlerMapping") RequestMappingHandlerMapping mappings;

    @Autowired
    MockMvc mvc;

    @Autowired
    TestPeople people;

    @Autowired
    People workers;

    @Autowired
    Desk desk;

    @Autowired
    JdbcTemplate jdbc;

    @Autowired
    PlatformTransactionManager transactions;

    Site site;
    final Map<Role, Person> holders = new EnumMap<>(Role.class);
    final Set<String> faults = new HashSet<>();
    final Map<String, String> ids = new HashMap<>();
    final List<String> faultsInWords = new ArrayList<>();
    int asked;

    @BeforeAll
    void aSiteWithOneOfEach() {
        site = people.site();
        WholeSite.FILES.forEach((kind, text) ->
                assertThat(desk.send(site, kind, text).codes()).as(kind.name()).isEmpty());
        people.on(site, () -> {
            var worker = workers.byNumber(site.id(), "W-1").id();
            for (Role role : Role.values()) {
                holders.put(
                        role,
                        switch (role) {
                            case WORKER -> people.person(List.of(RoleGrant.worker(site.id(), worker)));
                            case EMPLOYER ->
                                people.person(List.of(RoleGrant.employer(site.id(), "Dustless Contracts")));
                            default -> people.person(site, role);
                        });
            }
        });
        SiteBinding.run(
                site.id(),
                () -> new TransactionTemplate(transactions).executeWithoutResult(status -> {
                    jdbc.query(
                            "select kind, max(id::text) from ledger_record where site_id = ? group by kind",
                            row -> {
                                ids.put(row.getString(1), row.getString(2));
                            },
                            site.id().value());
                    ids.put(
                            "job",
                            jdbc.queryForObject(
                                    "select max(id::text) from import_job where site_id = ?",
                                    String.class,
                                    site.id().value()));
                }));
    }

    @Test
    void noFieldBringsDownAPage() throws Exception {
        for (Map.Entry<Mappings.Route, HandlerMethod> one :
                Mappings.handlers(mappings).entrySet()) {
            Mappings.Route route = one.getKey();
            Role role = caller(one.getValue());
            Map<String, Class<?>> fields = Mappings.fields(one.getValue());
            Map<String, String> sensible = new LinkedHashMap<>();
            fields.forEach((name, type) -> sensible.put(name, sensible(name, type)));
            send(route, role, sensible, "sensible", "");
            if (!route.method().equals("GET")) {
                for (String key : IDS) {
                    send(route, role, sensible, "formKey", key);
                }
            }
            if (fields.isEmpty()) {
                continue;
            }
            for (String nonsense : ALL) {
                Map<String, String> all = new LinkedHashMap<>();
                fields.keySet().forEach(name -> all.put(name, nonsense));
                send(route, role, all, "all", nonsense);
            }
            for (String name : fields.keySet()) {
                for (String nonsense : nonsense(name, fields.get(name))) {
                    Map<String, String> but = new LinkedHashMap<>(sensible);
                    but.put(name, nonsense);
                    send(route, role, but, name, nonsense);
                }
            }
        }
        assertThat(asked).isGreaterThan(1_000);
        assertThat(faultsInWords).isEmpty();
    }

    @Test
    void noAddressBringsDownAPage() throws Exception {
        for (Map.Entry<Mappings.Route, HandlerMethod> one :
                Mappings.handlers(mappings).entrySet()) {
            Role role = caller(one.getValue());
            Matcher variables =
                    Pattern.compile("\\{\\*?(\\w+)}").matcher(one.getKey().pattern());
            while (variables.find()) {
                for (String nonsense : IN_PATHS) {
                    String path = path(one.getKey().pattern(), variables.group(1), encoded(nonsense));
                    ask(one.getKey(), path, role, Map.of(), variables.group(1), nonsense);
                }
            }
        }
        assertThat(faultsInWords).isEmpty();
    }

    /** 1.250 litres to one reader are 1250 to another. */
    @Test
    void aFigureThatCanBeReadTwoWaysIsRefusedInTheForm() throws Exception {
        for (String figure : List.of("1.250", "1e3", "0x10", "1.250,5")) {
            MvcResult result = mvc.perform(MockMvcRequestBuilders.post("/sites/" + site.code() + "/sets/H-1/flow-check")
                            .param("lang", "es")
                            .param("reading", figure)
                            .param("instrument", "IND-1")
                            .with(csrf())
                            .with(signedIn(Role.STOREKEEPER)))
                    .andReturn();
            assertThat(result.getResponse().getStatus()).as(figure).isEqualTo(422);
            assertThat(result.getResponse().getContentAsString()).contains("value=\"" + figure + "\"");
        }
    }

    /** What was typed stands in the refusal letter for letter, and is never taken for a pattern. */
    @Test
    void aRefusalRepeatsWhatWasTyped() throws Exception {
        MvcResult result = mvc.perform(MockMvcRequestBuilders.post("/sites/" + site.code() + "/sets/H-1/issue")
                        .param("worker", "{0} O'Neil's {1}")
                        .param("task", "BLAST")
                        .param("hours", "4")
                        .with(csrf())
                        .with(signedIn(Role.STOREKEEPER)))
                .andReturn();
        assertThat(result.getResponse().getStatus()).isEqualTo(422);
        assertThat(result.getResponse().getContentAsString().split("\\{0} O&#39;Neil&#39;s \\{1}", -1))
                .as("in the field, beside it and in the summary")
                .hasSizeGreaterThanOrEqualTo(4);
    }

    private static List<String> nonsense(String name, Class<?> type) {
        if (type.isEnum()) {
            return List.of();
        }
        if (Temporal.class.isAssignableFrom(type)
                || List.of("at", "from", "until", "knownAt", "asOf", "swap").contains(name)) {
            return TIMES;
        }
        return Number.class.isAssignableFrom(type) || type == int.class ? FIGURES : type == UUID.class ? IDS : TEXTS;
    }

    private static String encoded(String text) {
        return text.contains("%0") || text.contains("%2")
                ? text
                : URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
    }

    private void send(Mappings.Route route, @Nullable Role role, Map<String, String> fields, String field, String value)
            throws Exception {
        ask(route, path(route.pattern(), null, ""), role, fields, field, value);
    }

    private void ask(
            Mappings.Route route,
            String path,
            @Nullable Role role,
            Map<String, String> fields,
            String field,
            String value)
            throws Exception {
        MockHttpServletRequestBuilder request =
                MockMvcRequestBuilders.request(HttpMethod.valueOf(route.method()), URI.create(path));
        fields.forEach(request::param);
        if (!route.method().equals("GET")) {
            String key = field.equals("formKey") ? value : UUID.randomUUID().toString();
            request.param("formKey", key).param("step", "record").with(csrf());
            if (route.pattern().endsWith("/import/{kind}")) {
                request.contentType("text/csv").content(value);
            }
        }
        if (role != null) {
            request.with(signedIn(role));
        }
        asked++;
        String shown = value.length() > 60 ? value.substring(0, 20) + "…" : value;
        try {
            MvcResult result = mvc.perform(request).andReturn();
            int status = result.getResponse().getStatus();
            if (status >= 500) {
                note(route + " " + field + " " + status, shown, result.getResolvedException());
            }
        } catch (RequestRejectedException firewall) {
            // the edge's own 400
        } catch (Exception fault) {
            note(route + " " + field, shown, fault);
        }
    }

    private RequestPostProcessor signedIn(Role role) {
        Person person = holders.get(role);
        return authentication(UsernamePasswordAuthenticationToken.authenticated(
                new KnownAccount(person.id().value(), person.login(), person.name()), null, List.of()));
    }

    private void note(String where, String value, @Nullable Throwable why) {
        Throwable root = why;
        while (root != null && root.getCause() != null) {
            root = root.getCause();
        }
        if (faults.add(where + ": " + (root == null ? "" : root.getClass().getSimpleName()))) {
            StringWriter trace = new StringWriter();
            if (root != null) {
                root.printStackTrace(new PrintWriter(trace));
            }
            String first = trace.toString()
                    .lines()
                    .filter(line -> line.contains("org.hoodkeeper") || !line.startsWith("\t"))
                    .limit(5)
                    .reduce("", (a, b) -> a + " | " + b.strip());
            faultsInWords.add(where + " [" + value.replace("\u0000", "NUL") + "] " + first);
        }
    }

    private String path(String pattern, @Nullable String strange, String with) {
        return Pattern.compile("\\{\\*?(\\w+)}").matcher(pattern).replaceAll(found -> {
            String name = found.group(1);
            return Matcher.quoteReplacement(name.equals(strange) ? with : sample(name, pattern));
        });
    }

    private String sample(String variable, String pattern) {
        return switch (variable) {
            case "site" -> site.code();
            case "account" -> holders.get(Role.TRAINER).id().value().toString();
            case "code" ->
                pattern.contains("/instruments/")
                        ? "IND-1"
                        : pattern.contains("/supplies/") ? "AIR-1" : pattern.contains("/models/") ? "HOOD-A" : "BLAST";
            case "job" -> ids.get("job");
            case "key" -> "notice.period";
            case "kind" -> "wears";
            case "label" -> "H-1";
            case "number" -> "W-1";
            case "role" -> "TRAINER";
            case "report" ->
                ids.getOrDefault(
                        String.valueOf(org.hoodkeeper.facts.Kind.SYMPTOM_REPORT.number()),
                        UUID.randomUUID().toString());
            case "record" -> ids.values().iterator().next();
            default -> "00000000-0000-7000-8000-000000000000";
        };
    }

    private static String sensible(String name, Class<?> type) {
        if (type.isEnum()) {
            return ((Enum<?>) type.getEnumConstants()[0]).name();
        }
        if (type == LocalDate.class) {
            return "2025-09-01";
        }
        if (type == LocalDateTime.class) {
            return "";
        }
        if (type == BigDecimal.class || type == Integer.class || type == int.class) {
            return "5";
        }
        return switch (name) {
            case "model" -> "HOOD-A";
            case "task" -> "BLAST";
            case "set", "label" -> "H-1";
            case "worker", "person", "number" -> "W-1";
            case "instrument", "indicator" -> "IND-1";
            case "supply" -> "AIR-1";
            case "size" -> "M";
            case "sealRevision" -> "R1";
            case "product" -> "OX-4";
            case "slot" -> "visor";
            case "part" -> "V-1";
            case "unit" -> "mg/m3";
            case "substance" -> "silica";
            case "from" -> "2025-09-01T08:00Z";
            case "until" -> "2025-09-01T12:00Z";
            case "exercises" -> "2410 3050 2200 2900 2600 2100 2750";
            default -> "";
        };
    }

    private @Nullable Role caller(HandlerMethod handler) {
        Allowed allowed = handler.getMethodAnnotation(Allowed.class);
        if (allowed == null) {
            return null;
        }
        return allowed.value().length > 0 ? allowed.value()[0] : Role.WORKER;
    }
}
