package example.tamponade.app.convert;

import example.tamponade.app.intake.EventLine;
import example.tamponade.app.intake.EventLines;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.core.protocol.CareProtocol;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;

/** Converts files of events: read, group by case, fold, map, check, write. */
final class CaseConversion {

    private final CareProtocol protocol;
    private final EventReader reader;
    private final Progress progress;

    CaseConversion(CareProtocol protocol, Clock clock, Progress progress) {
        this.protocol = protocol;
        this.reader = new EventReader(protocol, clock);
        this.progress = progress;
    }

    ConversionSummary convert(List<Path> files, Path out, OutputForm form) throws IOException {
        Files.createDirectories(out);
        TakenEvents events = new TakenEvents();
        long refused;
        try (RefusedFile refusals = new RefusedFile(out)) {
            for (Path file : files) {
                read(file, events, refusals);
            }
            refused = refusals.count();
        }
        CaseWriter writer = new CaseWriter(protocol, out, form);
        for (Map.Entry<String, List<Intake.Taken>> group : events.byCase().entrySet()) {
            progress.say("writing " + group.getKey());
            writer.write(group.getKey(), group.getValue());
        }
        return new ConversionSummary(
                events.taken(), events.repeated(), refused, events.byCase().size(), writer.resources());
    }

    private void read(Path file, TakenEvents events, RefusedFile refusals) throws IOException {
        long before = events.taken() + events.repeated() + refusals.count();
        try (EventLines lines = new EventLines(Files.newInputStream(file))) {
            for (EventLine line = lines.next(); line != null; line = lines.next()) {
                progress.line();
                if (!line.blank()) {
                    take(file, line, events, refusals);
                }
            }
        }
        if (before == events.taken() + events.repeated() + refusals.count()) {
            refusals.addEmpty(
                    file,
                    List.of(new Reason(
                            ReasonCode.EMPTY_INPUT,
                            "",
                            "the file holds no event",
                            "check that it was written out fully")));
        }
    }

    private void take(Path file, EventLine line, TakenEvents events, RefusedFile refusals) throws IOException {
        Intake intake = reader.read(line);
        if (intake instanceof Intake.Refused refused) {
            refusals.add(file, line, refused.reasons());
        } else if (intake instanceof Intake.Taken taken && !events.add(taken)) {
            refusals.add(file, line, List.of(Reason.conflict(taken.event().eventId())));
        }
    }
}
