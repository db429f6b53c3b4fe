package example.tamponade.fhir.bundle;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Note;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Narratives;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class DocumentPageTest {

    private static final CaseBundles BUNDLES = new CaseBundles(Shared.TERMS, Shared.MAPPER);

    static Bundle document(List<EventEnvelope> events, CaseView view) {
        return BUNDLES.document(
                InventedCase.file(events),
                view,
                BUNDLES.view(view, Mapped.ofCase(events).all()));
    }

    // What a reader of HTML reads: without tags, with the characters that are written otherwise.
    private static String read(String html) {
        return html.replaceAll("<[^>]*>", " ")
                .replace("&lt;", "<")
                .replace("&gt;", ">")
                .replace("&quot;", "\"")
                .replace("&amp;", "&")
                .replaceAll("\\s+", " ");
    }

    @ParameterizedTest
    @EnumSource
    void saysAllThatTheDocumentsNarrativesSay(CaseView view) {
        Bundle document = document(InventedCase.events(), view);
        String page = read(DocumentPage.of(document));
        Composition composition = (Composition) document.getEntryFirstRep().getResource();
        assertThat(DocumentPage.of(document)).contains("<h1>" + composition.getTitle() + "</h1>");

        assertThat(page).contains(composition.getTitle(), CaseMapper.CAUTION);
        composition.getSection().forEach(it -> {
            assertThat(page).contains(it.getTitle());
            for (String word : Narratives.text(it.getText()).split("\\s+")) {
                assertThat(page).contains(word);
            }
        });
    }

    @Test
    void loadsNothingAndRunsNothingWhateverWasWritten() {
        String page = DocumentPage.of(document(
                InventedCase.eventsOf(new Note("<script>alert(1)</script><img src=x onerror='x'> & \"so\" on")),
                CaseView.FULL));
        assertThat(page).startsWith("<!doctype html>");
        String tags = page.replaceAll("(?s)<style>.*?</style>", "").replaceAll("(?s)>[^<]*<", "><");
        assertThat(tags).doesNotContain("<script", "<img", "<link", " src=", " href=", "url(", " on");
        assertThat(read(page)).contains("<script>alert(1)</script>");
    }
}
