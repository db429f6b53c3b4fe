package example.tamponade.bench;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import java.util.UUID;

/** Events that nobody has sent yet, each of its own id, spread over some cases. */
final class NewEvents {

    private final Random random;
    private final int cases;

    /** Events of that many cases. */
    NewEvents(long seed, int cases) {
        this.random = new Random(seed);
        this.cases = cases;
    }

    /** A blood pressure and pulse as JSON, some 400 bytes. */
    String next() {
        UUID id = new UUID(random.nextLong(), random.nextLong());
        int minute = random.nextInt(60);
        return """
                {"eventId":"%s","caseId":"BENCH-%02d","facilityId":"fernglade-hp","type":"vital-signs",\
                "occurredAt":"2026-02-11T22:%02d:00+05:45","recordedAt":"2026-02-11T23:01:00+05:45",\
                "recordedBy":{"id":"fg-mw-02","role":"midwife"},"source":"form",\
                "data":{"pulse":%d,"systolic":%d,"diastolic":%d,"respirations":18,"oxygenSaturation":97}}""".formatted(
                        id,
                        random.nextInt(cases),
                        minute,
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
