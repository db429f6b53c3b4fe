package example.tamponade.fhir.bundle;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Objects;
import java.util.concurrent.locks.Lock;
import java.util.concurrent.locks.ReentrantLock;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.utilities.xhtml.XhtmlComposer;

/** A case document as PDF on A4, with its fonts in it; it has structure and language for readers that read aloud. */
public final class DocumentPdf {

    private static final String FONTS = "/net/sf/jasperreports/fonts/dejavu/";
    private static final String REGULAR = FONTS + "DejaVuSansCondensed.ttf";
    private static final String BOLD = FONTS + "DejaVuSansCondensed-Bold.ttf";
    private static final int NORMAL_WEIGHT = 400;
    private static final int BOLD_WEIGHT = 700;

    // What is cut by the end of a sheet is said again at the head of the next: whose record it is, and the heads of
    // tables.
    private static final String STYLE = """
            @page {
              size: A4; margin: 8mm 11mm 11mm;
              @bottom-left { content: "%s"; font: 7.5pt Document; }
              @bottom-right { content: counter(page) " / " counter(pages); font: 7.5pt Document; }
            }
            body { font: 7.3pt/1.17 Document; }
            h1 { font-size: 13pt; margin: 0 0 2pt; }
            h2 { font-size: 8.6pt; margin: 3.5pt 0 1.5pt; border-bottom: 0.5pt solid #555; page-break-after: avoid; }
            p { margin: 1pt 0; word-wrap: break-word; }
            table { border-collapse: collapse; margin: 1pt 0; -fs-table-paginate: paginate; width: 100%%; }
            th, td { text-align: left; vertical-align: top; padding: 0.6pt 4pt 0.6pt 0; }
            th { font-size: 6.6pt; border-bottom: 0.5pt solid #555; }
            tr { page-break-inside: avoid; }
            tbody tr:nth-child(even) { background: #eee; }
            """;

    // One at a time: each needs memory for the whole of its pages.
    private static final Lock TURN = new ReentrantLock(true);

    private DocumentPdf() {}

    /**
     * The file.
     *
     * @param document a case document
     * @throws UnprintableException when it has letters that would not be shown rightly
     */
    public static byte[] of(Bundle document) throws UnprintableException {
        Composition composition = (Composition) document.getEntryFirstRep().getResource();
        String style = STYLE.formatted(composition.getTitle().replaceAll("[\"\\\\]", " "));
        String page = new XhtmlComposer(XhtmlComposer.XML).compose(DocumentPage.html(document, style));
        Letters.demand(page);
        XRLog.setLoggingEnabled(false);
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        TURN.lock();
        try {
            new PdfRendererBuilder()
                    .usePdfUaAccessibility(true)
                    .useFont(() -> font(REGULAR), "Document", NORMAL_WEIGHT, FontStyle.NORMAL, true)
                    .useFont(() -> font(BOLD), "Document", BOLD_WEIGHT, FontStyle.NORMAL, true)
                    .withHtmlContent(page, null)
                    .toStream(pdf)
                    .run();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } finally {
            TURN.unlock();
        }
        return pdf.toByteArray();
    }

    private static InputStream font(String file) {
        return Objects.requireNonNull(DocumentPdf.class.getResourceAsStream(file), file);
    }

    /** The letters that there are. */
    private static final class Letters {

        private static final CmapLookup FOUND = lookup();

        private static void demand(String text) throws UnprintableException {
            for (int letter : text.codePoints().distinct().toArray()) {
                byte direction = Character.getDirectionality(letter);
                boolean fromTheRight = direction == Character.DIRECTIONALITY_RIGHT_TO_LEFT
                        || direction == Character.DIRECTIONALITY_RIGHT_TO_LEFT_ARABIC;
                if (fromTheRight || !Character.isISOControl(letter) && FOUND.getGlyphId(letter) == 0) {
                    throw new UnprintableException(letter);
                }
            }
        }

        private static CmapLookup lookup() {
            try (InputStream file = font(REGULAR);
                    TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(file))) {
                return font.getUnicodeCmapLookup();
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
