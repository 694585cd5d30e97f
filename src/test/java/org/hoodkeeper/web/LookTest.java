package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;

import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;

@SpringBootTest(classes = LookPages.class)
@AutoConfigureMockMvc(addFilters = false)
class LookTest {

    @Autowired
    MockMvc mvc;

    String page(MockHttpServletRequestBuilder request) throws Exception {
        MockHttpServletResponse response = mvc.perform(request).andReturn().getResponse();
        assertThat(response.getStatus()).isEqualTo(200);
        return response.getContentAsString();
    }

    @Test
    void aPageHasItsDoctypeLanguageAndTitle() throws Exception {
        java.nio.file.Files.writeString(java.nio.file.Path.of("target/a.html"), page(get("/look/answer")));
        java.nio.file.Files.writeString(java.nio.file.Path.of("target/f.html"), page(get("/look/form")));
        java.nio.file.Files.writeString(
                java.nio.file.Path.of("target/g.html"),
                page(post("/look/form").param("litresPerMinute", "a").param("turns", "x")));
    }
}
