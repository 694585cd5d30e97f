package org.hoodkeeper.web.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.evidence.TestSite;
import org.hoodkeeper.evidence.TestSite.Laid;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.History;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.MvcResult;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import org.springframework.test.web.servlet.request.MockMvcRequestBuilders;

/** Walks through a page that records something as a person does: look, fill in, look over, record, read what was told. */
@TestComponent
public class Desk {

    private final MockMvc mvc;
    private final TestPeople people;
    private final TestSite sites;
    private final History history;

    Desk(MockMvc mvc, TestPeople people, TestSite sites, History history) {
        this.mvc = mvc;
        this.people = people;
        this.sites = sites;
        this.history = history;
    }

    /** An invented site, and somebody with these roles in front of a browser. */
    public Seat sit(Role... roles) {
        Laid laid = sites.lay("uk");
        return sit(laid, roles);
    }

    public Seat sit(Laid laid, Role... roles) {
        return new Seat(
                laid,
                people.person(Stream.of(roles).map(role -> grant(laid, role)).toList()));
    }

    private static RoleGrant grant(Laid laid, Role role) {
        return role == Role.WORKER
                ? RoleGrant.worker(laid.site().id(), laid.worker())
                : RoleGrant.of(laid.site().id(), role);
    }

    /** One person at one site. */
    public final class Seat {

        public final Laid laid;
        private final KnownAccount account;

        private Seat(Laid laid, TestPeople.Person person) {
            this.laid = laid;
            this.account = new KnownAccount(person.id().value(), person.login(), person.name());
        }

        public AccountId id() {
            return account.id();
        }

        public MvcResult get(String path) {
            return perform(MockMvcRequestBuilders.get("/sites/" + laid.site().code() + path));
        }

        /** As a command asks. */
        public MvcResult api(String path) {
            return perform(
                    MockMvcRequestBuilders.get("/api/sites/" + laid.site().code() + path));
        }

        public MvcResult post(String path, Map<String, String> fields) {
            MockHttpServletRequestBuilder post =
                    MockMvcRequestBuilders.post("/sites/" + laid.site().code() + path);
            fields.forEach((name, value) -> Stream.of(value.split("\\|")).forEach(one -> post.param(name, one)));
            return perform(post.with(csrf()));
        }

        /** The page opens, takes these answers, shows them, records them once, and says so. */
        public History.Version records(String path, String... namesAndValues) {
            assertThat(status(get(path))).as("GET %s", path).isEqualTo(200);
            assertThat(text(get(path))).as("nothing is chosen beforehand").doesNotContain("type=\"radio\" checked");
            Map<String, String> fields = fields(namesAndValues);
            fields.put("formKey", UUID.randomUUID().toString());
            int before = versions().size();
            fields.put("step", "check");
            MvcResult check = post(path, fields);
            assertThat(status(check)).as(text(check)).isEqualTo(200);
            assertThat(text(check)).contains("value=\"record\"", "value=\"change\"");
            assertThat(versions()).as("looking over records nothing").hasSize(before);
            fields.put("step", "record");
            MvcResult recorded = post(path, fields);
            assertThat(status(recorded)).as(text(recorded)).isEqualTo(302);
            String target = String.valueOf(recorded.getResponse().getRedirectedUrl());
            assertThat(post(path, fields).getResponse().getRedirectedUrl())
                    .as("sent twice, recorded once")
                    .isEqualTo(target);
            MvcResult told = get(target.substring(target.indexOf("/told/")));
            assertThat(status(told)).as(text(told)).isEqualTo(200);
            assertThat(text(told)).contains(account.name());
            RecordId id = RecordId.of(target.substring(target.lastIndexOf('/') + 1));
            History.Version version = laid.in(
                    () -> history.find(laid.site().id(), id, Instant.now().plusSeconds(60)));
            assertThat(version).isNotNull();
            return version;
        }

        /** Says on the page what is wrong, and keeps what was typed. */
        public String refuses(String path, String... namesAndValues) {
            Map<String, String> fields = fields(namesAndValues);
            fields.put("formKey", UUID.randomUUID().toString());
            fields.put("step", "check");
            int before = versions().size();
            MvcResult result = post(path, fields);
            assertThat(status(result)).as(text(result)).isEqualTo(422);
            assertThat(text(result)).contains("role=\"alert\"");
            assertThat(versions()).hasSize(before);
            return text(result);
        }

        private List<History.Version> versions() {
            return laid.in(() -> Stream.<Id>of(
                            laid.worker(),
                            laid.task(),
                            laid.maskModel(),
                            laid.site().id())
                    .flatMap(
                            id -> history.of(laid.site().id(), id, Instant.now().plusSeconds(60), 100).stream())
                    .toList());
        }

        private MvcResult perform(MockHttpServletRequestBuilder request) {
            try {
                return mvc.perform(request.with(authentication(
                                UsernamePasswordAuthenticationToken.authenticated(account, null, List.of()))))
                        .andReturn();
            } catch (Exception e) {
                throw new AssertionError(e);
            }
        }
    }

    public static int status(MvcResult result) {
        return result.getResponse().getStatus();
    }

    public static String text(MvcResult result) {
        try {
            return result.getResponse().getContentAsString(java.nio.charset.StandardCharsets.UTF_8);
        } catch (java.io.UnsupportedEncodingException e) {
            throw new AssertionError(e);
        }
    }

    private static Map<String, String> fields(String... namesAndValues) {
        Map<String, String> fields = new LinkedHashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            fields.put(namesAndValues[i], namesAndValues[i + 1]);
        }
        return fields;
    }
}
