package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import java.util.List;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.exchange.Desk;
import org.hoodkeeper.exchange.WholeSite;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.boot.webmvc.test.autoconfigure.MockMvcPrint;
import org.springframework.context.annotation.Import;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.MvcResult;
import org.springframework.test.web.servlet.request.MockMvcRequestBuilders;
import org.springframework.test.web.servlet.request.RequestPostProcessor;

/** What a person typed comes back as it was typed, and is read in one way only or not at all. */
@SpringBootTest
@AutoConfigureMockMvc(print = MockMvcPrint.NONE)
@Import({TestPeople.class, Desk.class})
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class TypedBackTest {

    @Autowired
    MockMvc mvc;

    @Autowired
    TestPeople people;

    @Autowired
    Desk desk;

    Site site;
    Person keeper;

    @BeforeAll
    void aSiteWithOneOfEach() {
        site = people.site();
        WholeSite.FILES.forEach((kind, text) ->
                assertThat(desk.send(site, kind, text).codes()).as(kind.name()).isEmpty());
        keeper = people.person(site, Role.STOREKEEPER);
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
                            .with(signedIn()))
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
                        .with(signedIn()))
                .andReturn();
        assertThat(result.getResponse().getStatus()).isEqualTo(422);
        assertThat(result.getResponse().getContentAsString().split("\\{0} O&#39;Neil&#39;s \\{1}", -1))
                .as("in the field, beside it and in the summary")
                .hasSizeGreaterThanOrEqualTo(4);
    }

    /** No year of more than four digits reaches the database, wherever a moment is typed. */
    @Test
    void aYearOutOfReachIsRefusedInTheForm() throws Exception {
        for (String at : List.of("+999999999-12-31T23:59", "0000-01-01T00:00")) {
            MvcResult result = mvc.perform(MockMvcRequestBuilders.post("/sites/" + site.code() + "/sets/H-1/part")
                            .param("slot", "visor")
                            .param("part", "V-1")
                            .param("at", at)
                            .with(csrf())
                            .with(signedIn()))
                    .andReturn();
            assertThat(result.getResponse().getStatus()).as(at).isEqualTo(422);
        }
    }

    private RequestPostProcessor signedIn() {
        return authentication(UsernamePasswordAuthenticationToken.authenticated(
                new KnownAccount(keeper.id().value(), keeper.login(), keeper.name()), null, List.of()));
    }
}
