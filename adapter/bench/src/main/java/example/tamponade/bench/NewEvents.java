package example.tamponade.bench;

import static java.time.format.DateTimeFormatter.ISO_OFFSET_DATE_TIME;

import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import java.util.UUID;

/** Invented events of as many cases as are wanted, no two with one id; those of a case come in their order. */
final class NewEvents {

    private static final OffsetDateTime BEGIN = OffsetDateTime.parse("2026-02-11T22:00:00+05:45");

    private final Random random;
    private final int cases;
    private final Map<Integer, Integer> sent = new HashMap<>();

    /** Events of that many cases. */
    NewEvents(long seed, int cases) {
        this.random = new Random(seed);
        this.cases = cases;
    }

    /** The id of a case. */
    static String caseId(int number) {
        return "BENCH-%02d".formatted(number);
    }

    /** The next event of some case. */
    String next() {
        return next(random.nextInt(cases));
    }

    /** The next blood pressure and pulse of a case as JSON, some 400 bytes. */
    String next(int number) {
        UUID id = new UUID(random.nextLong(), random.nextLong());
        OffsetDateTime at = BEGIN.plusMinutes(sent.merge(number, 1, Integer::sum));
        return """
                {"eventId":"%s","caseId":"%s","facilityId":"fernglade-hp","type":"vital-signs",\
                "occurredAt":"%s","recordedAt":"%s",\
                "recordedBy":{"id":"fg-mw-02","role":"midwife"},"source":"form",\
                "data":{"pulse":%d,"systolic":%d,"diastolic":%d,"respirations":18,"oxygenSaturation":97}}""".formatted(
                        id,
                        caseId(number),
                        ISO_OFFSET_DATE_TIME.format(at),
                        ISO_OFFSET_DATE_TIME.format(at.plusMinutes(1)),
                        60 + random.nextInt(80),
                        90 + random.nextInt(50),
                        50 + random.nextInt(30));
    }

    /** Several of them, one a line. */
    byte[] lines(int count) {
        StringBuilder lines = new StringBuilder();
        for (int i = 0; i < count; i++) {
            lines.append(next()).append('\n');
        }
        return lines.toString().getBytes(StandardCharsets.UTF_8);
    }
}
