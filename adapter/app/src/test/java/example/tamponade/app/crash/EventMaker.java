package example.tamponade.app.crash;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Random;
import java.util.UUID;

/** Valid events of several invented cases, the same for the same seed. Safe for use by several threads. */
final class EventMaker {

    private static final OffsetDateTime BEGIN = OffsetDateTime.parse("2026-03-02T06:20:00+05:45");
    private static final int CASES_AT_ONCE = 4;
    private static final int EVENTS_OF_THEM = 120;

    private final Random random;
    private int count;

    EventMaker(long seed) {
        this.random = new Random(seed);
    }

    /**
     * An event.
     *
     * @param id its id
     * @param json the event as it is sent
     */
    record Made(UUID id, String json) {}

    synchronized Made next() {
        UUID id = new UUID(random.nextLong() & ~0xF000L | 0x4000L, random.nextLong() >>> 2 | Long.MIN_VALUE);
        int caseNumber = count / EVENTS_OF_THEM * CASES_AT_ONCE + random.nextInt(CASES_AT_ONCE);
        OffsetDateTime at = BEGIN.plusMinutes(count % EVENTS_OF_THEM * 5L);
        count++;
        return new Made(id, """
                {"eventId":"%s","caseId":"CRASH-%04d","facilityId":"quillmere-bp","occurredAt":"%s","recordedAt":"%s",\
                "recordedBy":{"id":"qm-01","role":"midwife"},%s}""".formatted(id, caseNumber, text(at), text(at.plusMinutes(2)), data()));
    }

    private static String text(OffsetDateTime time) {
        return DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(time);
    }

    private String data() {
        return switch (random.nextInt(4)) {
            case 0 ->
                "\"type\":\"vital-signs\",\"data\":{\"pulse\":%d,\"systolic\":%d,\"diastolic\":%d}"
                        .formatted(70 + random.nextInt(40), 95 + random.nextInt(40), 55 + random.nextInt(25));
            case 1 ->
                "\"type\":\"blood-loss\",\"data\":{\"method\":\"suction\",\"reading\":\"increment\",\"volumeMl\":%d}"
                        .formatted(5 + random.nextInt(40));
            case 2 -> "\"type\":\"bleeding-checked\",\"data\":{\"amount\":\"light\"}";
            default -> "\"type\":\"note\",\"data\":{\"text\":\"Reading %d of the drill\"}".formatted(count);
        };
    }
}
