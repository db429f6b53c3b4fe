package example.tamponade.app.observation;

import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.LongPieces;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.resources.ParsedResource;
import example.tamponade.app.resources.ResourcePart;
import example.tamponade.app.resources.ResourceParts;
import example.tamponade.app.resources.StrictReader;
import example.tamponade.fhir.terms.EventForm;
import example.tamponade.fhir.terms.Terms;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ObjectNode;

/**
 * FHIR R4 Observations: one in a document, one a line, or in a Bundle of any type. Each is a piece; several that follow one
 * another with the same event as their source are one.
 */
public final class ObservationFormat implements EventFormat {

    private final StrictReader<Observation> reader = new StrictReader<>(Observation.class);
    private final ObservationReader observations;
    private final EventAssembly assembly;

    /**
     * Reads observations.
     *
     * @param terms what codes mean
     * @param form how each property is answered
     * @param events reads the events made of them
     */
    public ObservationFormat(Terms terms, EventForm form, EventReader events) {
        this.observations = new ObservationReader(terms, form);
        this.assembly = new EventAssembly(events);
    }

    @Override
    public Pieces open(InputStream in) {
        return new Grouped(new ResourceParts(in));
    }

    private final class Grouped implements Pieces {

        private final ResourceParts parts;
        private final Deque<Piece> ready = new ArrayDeque<>();
        private @Nullable ObservationGroup group;

        Grouped(ResourceParts parts) {
            this.parts = parts;
        }

        @Override
        public @Nullable Piece next() throws IOException {
            while (ready.isEmpty()) {
                ResourcePart part = parts.next();
                if (part == null) {
                    finish();
                    return ready.poll();
                }
                add(part);
            }
            return ready.remove();
        }

        private void add(ResourcePart part) {
            if (part.reasons().isEmpty()) {
                LongPieces.read(part.original().length(), () -> read(part));
            } else {
                refuse(part, part.reasons());
            }
        }

        private void read(ResourcePart part) {
            StrictReader.Tree tree = reader.tree(part.original().bytes());
            if (tree instanceof StrictReader.Tree.Refused no) {
                refuse(part, List.of(no.reason()));
                return;
            }
            ObjectNode root = ((StrictReader.Tree.Read) tree).root();
            ParsedResource<Observation> parsed = reader.parse(root);
            Observation observation = parsed.resource();
            if (observation == null || !parsed.reasons().isEmpty()) {
                refuse(part, parsed.reasons());
                return;
            }
            String line = root.toString();
            String type = observations.type(observation);
            if (group == null || !group.takes(observation, line, part.place(), type)) {
                finish();
                group = new ObservationGroup(observation, line, part.place(), type);
            }
        }

        private void refuse(ResourcePart part, List<Reason> reasons) {
            finish();
            ready.add(new Piece(InputFormat.OBSERVATION, part.place(), part.original(), new Intake.Refused(reasons)));
        }

        private void finish() {
            if (group != null) {
                ready.add(piece(group));
                group = null;
            }
        }

        @Override
        public void close() throws IOException {
            parts.close();
        }
    }

    private Piece piece(ObservationGroup group) {
        Original original = group.original();
        Found found = observations.read(group.observations());
        return new Piece(InputFormat.OBSERVATION, group.place(), original, intake(found, original));
    }

    private Intake intake(Found found, Original original) {
        if (found.reasons.stream().anyMatch(it -> it.code() == ReasonCode.NOT_SUPPORTED)) {
            return new Intake.Refused(found.reasons);
        }
        Intake read = assembly.read(found.stated, original);
        if (found.reasons.isEmpty()) {
            return read;
        }
        List<Reason> reasons = new ArrayList<>(found.reasons);
        if (read instanceof Intake.Refused refused) {
            refused.reasons().stream()
                    .filter(it -> found.reasons.stream().noneMatch(own -> covers(own.path(), it.path())))
                    .forEach(reasons::add);
        }
        return new Intake.Refused(reasons);
    }

    private static boolean covers(String own, String path) {
        return !own.isEmpty() && (path.equals(own) || path.startsWith(own + "/"));
    }
}
