package org.hoodkeeper.access.edge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.CommandTokens;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.Public;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.programme.Site;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpMethod;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.MvcResult;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import org.springframework.test.web.servlet.request.MockMvcRequestBuilders;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;

/**
 * Every mapping × every caller, against {@code access-matrix.csv}. A row gives a pattern, a method, callers (roles, or
 * {@code signed-out}, {@code stranger} for somebody with roles on another site only, {@code others} for all callers that
 * no row of that mapping names) and what they meet: {@code pass} the gate, {@code 401}, {@code 403}, {@code 404} or
 * {@code sign-in}. A new mapping needs its rows; a path variable that is new needs a sample below.
 */
@SpringBootTest
@AutoConfigureMockMvc
@Import(TestPeople.class)
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class AccessMatrixTest {

    private static final String NOBODY = "00000000-0000-7000-8000-000000000000";

    /** What stands for each path variable; for ids something that is not there, so that no call changes anything. */
    private static final Map<String, String> SAMPLES = Map.ofEntries(
            Map.entry("account", NOBODY),
            Map.entry("asked", NOBODY),
            Map.entry("check", NOBODY),
            Map.entry("code", "no-such-code"),
            Map.entry("job", NOBODY),
            Map.entry("key", "no-such-key"),
            Map.entry("kind", "workers"),
            Map.entry("label", "no-such-label"),
            Map.entry("number", "no-such-number"),
            Map.entry("record", NOBODY),
            Map.entry("report", NOBODY),
            Map.entry("role", "TRAINER"),
            Map.entry("secret", "no-such-link"),
            Map.entry("sort", "protection-gap"),
            Map.entry("token", NOBODY),
            Map.entry("step", "no-such-step"),
            Map.entry("work", "no-such-work"));

    private static final String SIGNED_OUT = "signed-out";
    private static final String STRANGER = "stranger";
    private static final String OTHERS = "others";

    private static final List<String> CALLERS = Stream.concat(
                    Stream.of(SIGNED_OUT, STRANGER), Stream.of(Role.values()).map(Role::name))
            .toList();

    record Route(String pattern, String method) {

        boolean isCommand() {
            return pattern.startsWith("/api/");
        }

        @Override
        public String toString() {
            return method + " " + pattern;
        }
    }

    @Autowired
    @Qualifier("requestMappingHandlerMapping") RequestMappingHandlerMapping mappings;

    @Autowired
    MockMvc mvc;

    @Autowired
    TestPeople people;

    @Autowired
    CommandTokens tokens;

    Site site;
    Person stranger;
    String strangersToken;
    final Map<Role, Person> holders = new EnumMap<>(Role.class);
    final Map<Role, String> holdersTokens = new EnumMap<>(Role.class);

    @BeforeAll
    void aPersonForEachRole() {
        site = people.site();
        Site other = people.site();
        stranger = people.person(other, Role.OFFICER);
        strangersToken = token(other, stranger, Role.OFFICER);
        for (Role role : Role.values()) {
            Person holder = people.person(site, role);
            holders.put(role, holder);
            holdersTokens.put(role, token(site, holder, role));
        }
    }

    @Test
    void everyMappingSaysWhoMayCallIt() {
        List<String> silent = new ArrayList<>();
        handlers().forEach((route, handler) -> {
            boolean open = handler.hasMethodAnnotation(Public.class);
            Allowed allowed = handler.getMethodAnnotation(Allowed.class);
            boolean somebody = allowed != null && (allowed.self() || allowed.value().length > 0);
            if (open == somebody) {
                silent.add(route.toString());
            }
        });
        assertThat(silent).isEmpty();
    }

    @Test
    void theMatrixNamesEveryMappingAndNoOther() throws IOException {
        Set<String> named =
                matrix().keySet().stream().map(Route::toString).collect(Collectors.toCollection(TreeSet::new));
        Set<String> there =
                handlers().keySet().stream().map(Route::toString).collect(Collectors.toCollection(TreeSet::new));
        assertThat(named).isEqualTo(there);
    }

    @Test
    void everyCallerMeetsWhatTheMatrixSays() throws Exception {
        List<String> wrong = new ArrayList<>();
        for (Map.Entry<Route, Map<String, String>> row : matrix().entrySet()) {
            for (String caller : CALLERS) {
                String expected =
                        row.getValue().getOrDefault(caller, row.getValue().get(OTHERS));
                String met = met(row.getKey(), caller);
                if (!met.equals(expected)) {
                    wrong.add(row.getKey() + " as " + caller + ": expected " + expected + ", met " + met);
                }
            }
        }
        assertThat(wrong).isEmpty();
    }

    /** Whoever may send a form may not send it without the page's own hidden token. */
    @Test
    void noFormIsTakenWithoutItsToken() throws Exception {
        List<String> taken = new ArrayList<>();
        for (Map.Entry<Route, Map<String, String>> row : matrix().entrySet()) {
            Route route = row.getKey();
            if (route.method().equals("GET") || route.isCommand()) {
                continue;
            }
            for (Role role : Role.values()) {
                MvcResult result = mvc.perform(request(route).with(authentication(signedIn(holders.get(role)))))
                        .andReturn();
                if (result.getResponse().getStatus() != 403 || passed(result)) {
                    taken.add(route + " as " + role);
                }
            }
        }
        assertThat(taken).isEmpty();
    }

    private String met(Route route, String caller) throws Exception {
        MockHttpServletRequestBuilder request = request(route);
        if (route.isCommand()) {
            String token = token(caller);
            request = token == null ? request : request.header("Authorization", "Bearer " + token);
        } else {
            request = request.with(csrf());
            Person person = person(caller);
            request = person == null ? request : request.with(authentication(signedIn(person)));
        }
        MvcResult result = mvc.perform(request).andReturn();
        if (passed(result)) {
            return "pass";
        }
        String redirect = result.getResponse().getRedirectedUrl();
        return redirect != null && redirect.endsWith("/sign-in")
                ? "sign-in"
                : Integer.toString(result.getResponse().getStatus());
    }

    private static boolean passed(MvcResult result) {
        return result.getRequest().getAttribute(Gate.PASSED) != null;
    }

    private MockHttpServletRequestBuilder request(Route route) {
        String path = Pattern.compile("\\{\\*?(\\w+)}").matcher(route.pattern()).replaceAll(found -> {
            String variable = found.group(1);
            String sample = variable.equals("site") ? site.code() : SAMPLES.get(variable);
            assertThat(sample).as("a sample for {%s} in %s", variable, route).isNotNull();
            return sample;
        });
        return MockMvcRequestBuilders.request(HttpMethod.valueOf(route.method()), path);
    }

    private @Nullable Person person(String caller) {
        return switch (caller) {
            case SIGNED_OUT -> null;
            case STRANGER -> stranger;
            default -> holders.get(Role.valueOf(caller));
        };
    }

    private @Nullable String token(String caller) {
        return switch (caller) {
            case SIGNED_OUT -> null;
            case STRANGER -> strangersToken;
            default -> holdersTokens.get(Role.valueOf(caller));
        };
    }

    private String token(Site where, Person person, Role role) {
        return SiteBinding.in(where.id(), () -> tokens.make("matrix", Set.of(role), people.viewer(where, person)));
    }

    private static UsernamePasswordAuthenticationToken signedIn(Person person) {
        KnownAccount account = new KnownAccount(person.id().value(), person.login(), person.name());
        return UsernamePasswordAuthenticationToken.authenticated(account, null, List.of());
    }

    private Map<Route, HandlerMethod> handlers() {
        Map<Route, HandlerMethod> found = new LinkedHashMap<>();
        mappings.getHandlerMethods().forEach((info, handler) -> {
            if (ErrorController.class.isAssignableFrom(handler.getBeanType())) {
                return;
            }
            assertThat(info.getMethodsCondition().getMethods())
                    .as("%s names its methods", info)
                    .isNotEmpty();
            info.getPatternValues()
                    .forEach(pattern -> info.getMethodsCondition()
                            .getMethods()
                            .forEach(method -> found.put(new Route(pattern, method.name()), handler)));
        });
        return found;
    }

    private static Map<Route, Map<String, String>> matrix() throws IOException {
        Map<Route, Map<String, String>> matrix = new LinkedHashMap<>();
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .setCommentMarker('#')
                .setIgnoreEmptyLines(true)
                .get();
        try (Reader in =
                Files.newBufferedReader(Path.of("src/test/resources/access-matrix.csv"), StandardCharsets.UTF_8)) {
            for (CSVRecord line : format.parse(in)) {
                Map<String, String> row = matrix.computeIfAbsent(
                        new Route(line.get("pattern"), line.get("method")), route -> new LinkedHashMap<>());
                for (String caller : line.get("callers").split(" ")) {
                    assertThat(caller.equals(OTHERS) || CALLERS.contains(caller))
                            .as("caller %s in line %d", caller, line.getRecordNumber())
                            .isTrue();
                    assertThat(row.put(caller, line.get("expected")))
                            .as("%s twice in line %d", caller, line.getRecordNumber())
                            .isNull();
                }
            }
        }
        return matrix;
    }
}
