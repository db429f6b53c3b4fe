package example.tamponade.app.convert;

import example.tamponade.app.formats.EventFiles;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.TakenEvents;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.protocol.CareProtocol;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;

/** Converts files of events: read, group by case, fold, map, check, write. */
final class CaseConversion {

    private final RecordParts parts;
    private final CareProtocol protocol;
    private final Formats formats;
    private final Progress progress;

    CaseConversion(RecordParts parts, CareProtocol protocol, Facilities facilities, Clock clock, Progress progress) {
        this.parts = parts;
        this.protocol = protocol;
        this.formats = new Formats(protocol, facilities, clock);
        this.progress = progress;
    }

    ConversionSummary convert(List<Path> files, Path out, OutputShape shape) throws IOException {
        Files.createDirectories(out);
        try (RefusedFile refusals = new RefusedFile(Files.createDirectories(shape.refusedIn(out)))) {
            TakenEvents events = new EventFiles(formats, watcher(refusals)).read(files);
            CaseWriter writer = new CaseWriter(parts, protocol, out, shape, refusals);
            List<Callable<Void>> work = new ArrayList<>();
            events.byCase()
                    .forEach((key, taken) -> work.add(() -> {
                        progress.say("writing " + key);
                        writer.write(key, taken);
                        return null;
                    }));
            CaseThreads.all(work);
            return new ConversionSummary(
                    events.taken(),
                    events.repeated(),
                    refusals.count(),
                    events.byCase().size(),
                    writer.resources());
        }
    }

    private EventFiles.Watcher watcher(RefusedFile refusals) {
        return new EventFiles.Watcher() {
            @Override
            public void pieceRead() {
                progress.piece();
            }

            @Override
            public void refused(Path file, @Nullable Piece piece, List<Reason> reasons) throws IOException {
                refusals.add(file, piece, reasons);
            }
        };
    }
}
