package example.tamponade.app.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class LedgerRowTest {

    // Expected: Python's hashlib.sha256 over the columns joined by line ends, as LedgerRow.link documents it.
    @Test
    void theLinkIsTheDigestOfTheRowAndTheLinkBeforeIt() {
        LedgerRow first = new LedgerRow(
                "case/fernglade-hp/FGL-2026-0117",
                1,
                "be6e8d67-0000-4000-8000-000000000001",
                "2026-02-11T17:13:00.250Z",
                "event",
                "ab",
                "{}");
        LedgerRow second = new LedgerRow(
                "case/fernglade-hp/FGL-2026-0117",
                2,
                "be6e8d67-0000-4000-8000-000000000002",
                "2026-02-11T17:14:00.000Z",
                "event",
                "cd",
                "{\"text\":\"Ōrlaith\"}");

        String link = first.link(LedgerRow.NO_LINK);

        assertThat(link).isEqualTo("786793790e2ac00e6945f0a9a1eaf7f1a3ed46eb0be8c1e8362a16ae652bbf12");
        assertThat(second.link(link)).isEqualTo("80de356fd38519cedcdd517690d7e18e2d13d8807d8381a9e0c2327b8978c48e");
    }
}
