package org.hoodkeeper.web.worker;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import org.junit.jupiter.api.Test;

class MyDefectControllerTest extends Phone {

    @Test
    void aDefectTakesTheSetOutOfUseAndSaysWhatToDo() {
        String stop = recorded("/today/defect/S-098", "part", "visor", "note", "deep scratch");
        assertThat(h1(stop)).isEqualTo("Do not wear S-098.");
        assertThat(stop).contains("<li>visor</li>", "do not clean it, do not repair it");
        assertThat(now(stop)).isEqualTo(at + "/today");
        assertThat(h1(page("/today"))).startsWith("You may not do T1 with set S-098. A defect is open since");
    }

    @Test
    void insideTheWayOutComesFirst() {
        goIn();
        String stop = recorded("/today/defect/S-098", "note", "smells of dust");
        assertThat(stop).contains("Leave the area first, then take it off in clean air.");
        assertThat(now(stop)).isEqualTo(at + "/today/leave");
        assertThat(h1(page("/today"))).startsWith("Come out now. A defect is open since");
    }

    @Test
    void aDefectWithoutAWordIsRefused() {
        HttpResponse<String> refused = typed("/today/defect/S-098", "part", "", "note", " ");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("Say what is wrong", "note-error");
    }
}
