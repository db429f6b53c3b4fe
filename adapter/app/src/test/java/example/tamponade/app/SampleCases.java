package example.tamponade.app;

import example.tamponade.app.intake.EventLine;
import example.tamponade.app.intake.EventLines;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Intake;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.casefile.RecordIssue;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/** The samples' cases, folded. */
public final class SampleCases {

    private static final CareProtocol PROTOCOL = CareProtocol.standard();

    private SampleCases() {}

    /** The case file of a sample. */
    public static CaseFile file(String name) {
        List<EventEnvelope> events =
                events(name).stream().filter(it -> it.caseId() != null).toList();
        return CaseFile.of(events.get(0).caseId(), PROTOCOL, events);
    }

    /** The file of a sample's facility. */
    public static CaseFile facility(String name) {
        List<EventEnvelope> events =
                events(name).stream().filter(it -> it.caseId() == null).toList();
        return CaseFile.of(null, PROTOCOL, events);
    }

    /** The events of a sample that can be taken, each once, those of the facility included. */
    public static List<EventEnvelope> events(String name) {
        EventReader reader = new EventReader(PROTOCOL, Clock.systemUTC());
        Map<UUID, EventEnvelope> events = new LinkedHashMap<>();
        try (EventLines lines = new EventLines(new ByteArrayInputStream(Samples.events(name)))) {
            for (EventLine line = lines.next(); line != null; line = lines.next()) {
                if (reader.read(line.original()) instanceof Intake.Taken taken) {
                    events.put(taken.event().eventId(), taken.event());
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return List.copyOf(events.values());
    }

    /**
     * The facts of a case in words, in order, without ids: of two cases that differ in the ids of their events only, the
     * words are the same.
     */
    public static List<String> words(CaseFile file) {
        return file.facts().stream().map(SampleCases::words).sorted().toList();
    }

    private static String words(CaseFact fact) {
        if (fact instanceof DerivedValue value) {
            return value.at() + " " + value.kind() + " " + value.value();
        }
        if (fact instanceof Flag flag) {
            return flag.start() + " " + flag.kind() + " " + flag.end();
        }
        return ((RecordIssue) fact).kind().toString();
    }
}
