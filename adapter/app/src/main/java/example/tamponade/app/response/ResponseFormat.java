package example.tamponade.app.response;

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
import example.tamponade.app.resources.ParsedResource;
import example.tamponade.app.resources.ResourcePart;
import example.tamponade.app.resources.ResourceParts;
import example.tamponade.app.resources.StrictReader;
import example.tamponade.fhir.terms.EventForm;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.List;
import org.hl7.fhir.r4.model.QuestionnaireResponse;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ObjectNode;

/**
 * Answers to the published form, as FHIR R4 QuestionnaireResponse: one in a document, one a line, or in a Bundle. Each
 * {@code event} group is a piece; its original is the response with that group alone, under the number it had.
 */
public final class ResponseFormat implements EventFormat {

    private final StrictReader<QuestionnaireResponse> reader = new StrictReader<>(QuestionnaireResponse.class);
    private final ResponseReader responses;
    private final EventAssembly assembly;

    /**
     * Reads answers to that form.
     *
     * @param events reads the events made of them
     */
    public ResponseFormat(EventForm form, EventReader events) {
        this.responses = new ResponseReader(form);
        this.assembly = new EventAssembly(events);
    }

    @Override
    public Pieces open(InputStream in) {
        ResourceParts parts = new ResourceParts(in);
        return new Pieces() {
            private final Deque<Single> waiting = new ArrayDeque<>();

            @Override
            public @Nullable Piece next() throws IOException {
                if (!waiting.isEmpty()) {
                    return piece(waiting.remove());
                }
                ResourcePart part = parts.next();
                if (part == null) {
                    return null;
                }
                if (!part.reasons().isEmpty()) {
                    return refused(part, part.reasons());
                }
                return LongPieces.read(part.original().length(), () -> first(part));
            }

            private Piece first(ResourcePart part) {
                StrictReader.Tree tree = reader.tree(part.original().bytes());
                if (tree instanceof StrictReader.Tree.Refused refused) {
                    return refused(part, List.of(refused.reason()));
                }
                ObjectNode root = ((StrictReader.Tree.Read) tree).root();
                if (Single.isTooLong(root)) {
                    return refused(part, List.of(Single.TOO_LONG));
                }
                waiting.addAll(Single.of(root, part.place()));
                return waiting.isEmpty() ? refused(part, List.of(Single.NO_EVENT)) : piece(waiting.remove());
            }

            @Override
            public void close() throws IOException {
                parts.close();
            }
        };
    }

    private Piece refused(ResourcePart part, List<Reason> reasons) {
        return new Piece(InputFormat.RESPONSE, part.place(), part.original(), new Intake.Refused(reasons));
    }

    private Piece piece(Single single) {
        Original original = Original.of(single.root().toString().getBytes(StandardCharsets.UTF_8));
        return new Piece(
                InputFormat.RESPONSE,
                single.place(),
                original,
                LongPieces.read(original.length(), () -> intake(single.root(), original)));
    }

    private Intake intake(ObjectNode root, Original original) {
        ParsedResource<QuestionnaireResponse> parsed = reader.parse(root);
        if (parsed.resource() == null || !parsed.reasons().isEmpty()) {
            return new Intake.Refused(parsed.reasons());
        }
        ResponseEvent event = responses.read(parsed.resource());
        Intake read = assembly.read(event.stated(), original);
        if (event.reasons().isEmpty() && read instanceof Intake.Taken) {
            return read;
        }
        List<Reason> reasons = new ArrayList<>(event.reasons());
        List<Reason> more = read instanceof Intake.Refused refused ? refused.reasons() : Collections.emptyList();
        more.stream()
                .filter(it ->
                        event.reasons().stream().noneMatch(own -> own.path().equals(it.path())))
                .map(event::placed)
                .forEach(reasons::add);
        return new Intake.Refused(reasons);
    }
}
