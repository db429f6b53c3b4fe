package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.Band;
import example.tamponade.core.protocol.CareProtocol;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.pcollections.PMap;
import org.pcollections.PVector;

/** One event being folded: the state to change and the facts found on the way. Lives for that event only. */
final class FoldStep {

    final UUID event;
    final EventEnvelope envelope;
    final CareProtocol protocol;

    @Nullable
    UUID opening;

    @Nullable
    UUID recognition;

    @Nullable
    OffsetDateTime closedAt;

    LossState loss;
    VitalsState vitals;
    PVector<Tamponade> tamponades;
    PMap<String, Flag> openFlags;

    private final List<CaseFact> facts = new ArrayList<>();

    FoldStep(UUID event, EventEnvelope envelope, CareProtocol protocol, CaseState before) {
        this.event = event;
        this.envelope = envelope;
        this.protocol = protocol;
        this.opening = before.opening();
        this.recognition = before.recognition();
        this.closedAt = before.closedAt();
        this.loss = before.loss();
        this.vitals = before.vitals();
        this.tamponades = before.tamponades();
        this.openFlags = before.openFlags();
    }

    OffsetDateTime at() {
        return envelope.occurredAt();
    }

    FactInput reading(Reading reading) {
        return new FactInput.OfEvent(event, reading);
    }

    FactKey derive(FactKind kind, FactValue value, List<FactInput> inputs) {
        return derive(kind, value, inputs, null, null);
    }

    FactKey derive(
            FactKind kind, FactValue value, List<FactInput> inputs, @Nullable Band band, @Nullable UUID tamponade) {
        FactKey key = FactKey.of(kind, event);
        facts.add(new DerivedValue(key, kind, at(), value, inputs, band, tamponade));
        return key;
    }

    void doubt(IssueKind kind, Severity severity, String part, String detail, FactInput... implicated) {
        facts.add(new RecordIssue(FactKey.of(kind, event, part), kind, severity, at(), detail, List.of(implicated)));
    }

    /** Begins a flag unless one of that kind and part stands. */
    void raise(FlagKind kind, String part, Severity severity, String text, String rule, FactInput... evidence) {
        FactKey key = FactKey.of(kind, event, part);
        if (!openFlags.containsKey(slot(kind, part))) {
            Flag flag = new Flag(key, kind, severity, at(), null, text, rule, List.of(evidence));
            openFlags = openFlags.plus(slot(kind, part), flag);
            facts.add(flag);
        }
    }

    /** Ends the flag of that kind and part, if one stands. */
    void end(FlagKind kind, String part) {
        endSlot(slot(kind, part));
    }

    /** Ends every flag that stands. */
    void endAll() {
        List.copyOf(openFlags.keySet()).stream().sorted().forEach(this::endSlot);
    }

    @Nullable
    Tamponade inPlace() {
        if (tamponades.isEmpty()) {
            return null;
        }
        Tamponade last = tamponades.get(tamponades.size() - 1);
        return last.inPlace() ? last : null;
    }

    void replaceLast(Tamponade tamponade) {
        tamponades = tamponades.with(tamponades.size() - 1, tamponade);
    }

    CaseState after() {
        return new CaseState(opening, recognition, closedAt, loss, vitals, tamponades, openFlags);
    }

    List<CaseFact> facts() {
        return List.copyOf(facts);
    }

    private void endSlot(String slot) {
        Flag flag = openFlags.get(slot);
        if (flag != null) {
            openFlags = openFlags.minus(slot);
            facts.add(flag.endedAt(at()));
        }
    }

    private static String slot(FlagKind kind, String part) {
        return kind.code() + "/" + part;
    }
}
