package example.tamponade.fhir.bundle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import example.tamponade.core.event.Note;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Narratives;
import java.io.IOException;
import java.util.Locale;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the PDF library's own reader reads. */
class DocumentPdfTest {

    @Test
    void saysAllThatTheDocumentsNarrativesSay() throws Exception {
        Bundle document = DocumentPageTest.document(InventedCase.events(), CaseView.COURSE);
        Composition composition = (Composition) document.getEntryFirstRep().getResource();
        try (PDDocument pdf = Loader.loadPDF(DocumentPdf.of(document))) {
            String text = squeezed(new PDFTextStripper().getText(pdf));
            assertThat(pdf.getDocumentInformation().getTitle()).isEqualTo(composition.getTitle());
            assertThat(pdf.getDocumentCatalog().getLanguage()).isEqualTo("en");
            assertThat(text).contains(squeezed(CaseMapper.CAUTION));
            composition.getSection().forEach(it -> {
                assertThat(text).contains(squeezed(it.getTitle()));
                for (String word : Narratives.text(it.getText()).split("\\s+")) {
                    assertThat(text).contains(squeezed(word));
                }
            });
        }
    }

    // Lines break within what belongs together.
    private static String squeezed(String text) {
        return text.replaceAll("\\s+", "");
    }

    @ParameterizedTest
    @ValueSource(strings = {"Ayşe Çelik", "Zoë Ñandú", "Łucja Žižková", "Ελένη", "Оксана"})
    void namesAreThereAsTheyAreWritten(String name) throws Exception {
        try (PDDocument pdf = Loader.loadPDF(DocumentPdf.of(ofNote(name)))) {
            assertThat(squeezed(new PDFTextStripper().getText(pdf))).contains(squeezed(name));
        }
    }

    // Joined letters, letters from right to left and letters that no font has would be shown wrongly.
    @ParameterizedTest
    @ValueSource(strings = {"अनीता", "فاطمة", "שרה", "美咲", "አበበ"})
    void lettersThatItCannotShowAreRefusedWithTheRemedy(String name) {
        assertThatThrownBy(() -> DocumentPdf.of(ofNote(name)))
                .isInstanceOf(UnprintableException.class)
                .hasMessageContaining("U+%04X".formatted(name.codePointAt(0)).toUpperCase(Locale.ROOT))
                .hasMessageContaining("print the page instead");
    }

    private static Bundle ofNote(String text) throws IOException {
        return DocumentPageTest.document(InventedCase.eventsOf(new Note(text)), CaseView.FULL);
    }
}
