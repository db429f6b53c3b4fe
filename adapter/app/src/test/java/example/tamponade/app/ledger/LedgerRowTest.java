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

        assertThat(link).isEqualTo("a8c079e7381405065df448289bc9d667751897689a725dc507ee6742d54394da");
        assertThat(second.link(link)).isEqualTo("e9f6b69c876fb2c428a2a0216e00f46e4a733949c2d6d8b7f89f525634e4879b");
    }
}
