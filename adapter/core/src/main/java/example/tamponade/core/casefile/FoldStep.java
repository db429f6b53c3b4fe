package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.ReadinessShare;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.Band;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.pcollections.PMap;
import org.pcollections.PSet;
import org.pcollections.PVector;

/** One event being folded: the state to change and the facts found on the way. Lives for that event only. */
final class FoldStep {

    final UUID event;
    final EventEnvelope envelope;
    final CareProtocol protocol;

    Progress progress;
    LossState loss;
    VitalsState vitals;
    PVector<Tamponade> tamponades;
    UrineState urine;
    FluidState fluids;
    MedicineState medicines;
    CheckState checks;
    StabilityState stability;
    LaboratoryState laboratory;
    NearMissState nearMiss;
    PVector<ReadinessShare.Checked> readiness;

    @Nullable
    BigDecimal fundusCm;

    private final Function<FactInput, OffsetDateTime> earlier;
    private PSet<FactKind> absent;
    private InstantState instant;
    private PMap<String, Flag> openFlags;
    private PMap<String, Timer> timers;
    private final List<CaseFact> facts = new ArrayList<>();

    FoldStep(
            UUID event,
            EventEnvelope envelope,
            CareProtocol protocol,
            CaseState before,
            Function<FactInput, OffsetDateTime> earlier) {
        this.event = event;
        this.earlier = earlier;
        this.envelope = envelope;
        this.protocol = protocol;
        this.progress = before.progress();
        this.loss = before.loss();
        this.vitals = before.vitals();
        this.tamponades = before.tamponades();
        this.urine = before.urine();
        this.fluids = before.fluids();
        this.medicines = before.medicines();
        this.checks = before.checks();
        this.stability = before.stability();
        this.laboratory = before.laboratory();
        this.nearMiss = before.nearMiss();
        this.readiness = before.readiness();
        this.openFlags = before.openFlags();
        this.timers = before.timers();
        this.absent = before.absent();
        this.instant = before.instant().of(envelope.occurredAt().toInstant());
        this.fundusCm = before.fundusCm();
    }

    OffsetDateTime at() {
        return envelope.occurredAt();
    }

    /** Whether the case was closed before; what is due or owed ends with it. */
    boolean closed() {
        return progress.closedAt() != null;
    }

    BigDecimal value(Setting setting) {
        return protocol.value(setting);
    }

    Duration duration(Setting setting) {
        return protocol.duration(setting);
    }

    FactInput reading(Reading reading) {
        return new FactInput.OfEvent(event, reading);
    }

    FactKey derive(FactKind kind, FactValue value, List<FactInput> inputs) {
        return derive(kind, value, inputs, null, null);
    }

    FactKey derive(
            FactKind kind, FactValue value, List<FactInput> inputs, @Nullable Band band, @Nullable UUID tamponade) {
        DerivedValue before = instant.of(kind, tamponade);
        FactKey key = before == null ? FactKey.of(kind, event) : before.key();
        List<FactInput> from = before == null ? inputs : continuing(before, inputs);
        DerivedValue fact = new DerivedValue(key, kind, at(), issued(from), value, from, band, tamponade);
        facts.removeIf(it -> it.key().equals(key));
        facts.add(fact);
        instant = instant.with(fact);
        return key;
    }

    private OffsetDateTime issued(List<FactInput> inputs) {
        return inputs.stream()
                .map(this::recorded)
                .max(Comparator.comparing(OffsetDateTime::toInstant))
                .orElseThrow();
    }

    private OffsetDateTime recorded(FactInput input) {
        if (input instanceof FactInput.OfEvent reading) {
            return reading.event().equals(event) ? envelope.recordedAt() : earlier.apply(input);
        }
        FactKey key = ((FactInput.OfFact) input).key();
        return facts.stream()
                .filter(it -> it instanceof DerivedValue && it.key().equals(key))
                .map(it -> ((DerivedValue) it).issued())
                .findFirst()
                .orElseGet(() -> earlier.apply(input));
    }

    // What was said of this instant already is said again, from all that it was derived from.
    private static List<FactInput> continuing(DerivedValue before, List<FactInput> inputs) {
        Set<FactInput> all = new LinkedHashSet<>();
        for (FactInput input : inputs) {
            if (input.equals(new FactInput.OfFact(before.key()))) {
                all.addAll(before.inputs());
            } else {
                all.add(input);
            }
        }
        return List.copyOf(all);
    }

    /** What a total is derived from: its value before, if there was one, and what is new. */
    static List<FactInput> continuing(@Nullable FactKey before, FactInput now) {
        return before == null ? List.of(now) : List.of(new FactInput.OfFact(before), now);
    }

    /** Says once in a case that a fact has no value, and why. */
    void deriveAbsent(FactKind kind, AbsentReason reason, FactInput... inputs) {
        if (!absent.contains(kind)) {
            absent = absent.plus(kind);
            derive(kind, new FactValue.Missing(reason), List.of(inputs));
        }
    }

    void doubt(IssueKind kind, Severity severity, String part, String detail, FactInput... implicated) {
        facts.add(new RecordIssue(FactKey.of(kind, event, part), kind, severity, at(), detail, List.of(implicated)));
    }

    /** Begins a flag unless one of that kind and part stands. */
    void raise(FlagKind kind, String part, Severity severity, String text, String rule, FactInput... evidence) {
        raise(flag(kind, part, severity, at(), text, rule, evidence), part);
    }

    /** Begins a flag of a kind that has no parts unless one of that kind stands. */
    void raise(Flag flag) {
        raise(flag, "");
    }

    private void raise(Flag flag, String part) {
        if (!stands(flag.kind(), part)) {
            openFlags = openFlags.plus(slot(flag.kind(), part), flag);
            facts.add(flag);
        }
    }

    /** Begins a flag of a kind that has no parts, in place of one that says another thing. */
    void restate(Flag flag) {
        Flag before = openFlags.get(slot(flag.kind(), ""));
        timers = timers.minus(slot(flag.kind(), ""));
        if (before != null && !before.text().equals(flag.text())) {
            endSlot(slot(flag.kind(), ""), FlagEndReason.SUPERSEDED);
        }
        raise(flag);
    }

    /** This reading repeats the one behind a flag that stands, and confirms it; the first repeat counts. */
    void confirm(FlagKind kind, String part, FactInput by) {
        Flag flag = openFlags.get(slot(kind, part));
        if (flag != null && flag.isToBeRepeated() && !flag.key().anchor().equals(event)) {
            Flag confirmed = flag.confirmed(by);
            openFlags = openFlags.plus(slot(kind, part), confirmed);
            facts.add(confirmed);
        }
    }

    /** Whether a flag of that kind and part stands. */
    boolean stands(FlagKind kind, String part) {
        return openFlags.containsKey(slot(kind, part));
    }

    /** Ends the flag of that kind and part, if one stands, by what this event shows, and calls off its timer. */
    void end(FlagKind kind, String part) {
        end(kind, part, FlagEndReason.RESOLVED);
    }

    /** Ends the flag of that kind and part, if one stands, and calls off its timer. */
    void end(FlagKind kind, String part, FlagEndReason reason) {
        timers = timers.minus(slot(kind, part));
        endSlot(slot(kind, part), reason);
    }

    /** Calls off every timer and ends what is owed no more; closing a record resolves nothing that is wrong with her. */
    void close() {
        timers = timers.minusAll(timers.keySet());
        openFlags.entrySet().stream()
                .filter(it -> !it.getValue().kind().tellsOfTheMother())
                .map(Map.Entry::getKey)
                .sorted()
                .toList()
                .forEach(it -> endSlot(it, FlagEndReason.NO_LONGER_OBSERVED));
    }

    /** Sets the timer of that kind and part: the flag will stand from {@code due} unless it is called off before. */
    void await(
            FlagKind kind,
            String part,
            OffsetDateTime due,
            Severity severity,
            String text,
            String rule,
            FactInput... evidence) {
        Flag flag = flag(kind, part, severity, due, text, rule, evidence);
        timers = timers.plus(slot(kind, part), new Timer(due, flag, null));
    }

    /** Sets the timer of a kind that has no parts: the flag will stand from its begin. */
    void await(Flag flag) {
        timers = timers.plus(slot(flag.kind(), ""), new Timer(flag.start(), flag, null));
    }

    /** Makes the flag of one running timer end another flag when it begins. */
    void replaces(FlagKind kind, FlagKind ended) {
        Timer timer = Objects.requireNonNull(timers.get(slot(kind, "")));
        timers = timers.plus(slot(kind, ""), new Timer(timer.due(), timer.flag(), slot(ended, "")));
    }

    /** Calls off the timer of that kind and part; a flag that it has brought already stands on. */
    void callOff(FlagKind kind, String part) {
        timers = timers.minus(slot(kind, part));
    }

    /** Raises what time alone has brought by the time of this event. */
    void letTimePass() {
        Timers passed = Timers.passed(openFlags, timers, at());
        openFlags = passed.openFlags();
        timers = passed.timers();
        facts.addAll(passed.facts());
    }

    @Nullable
    Tamponade inPlace() {
        Tamponade last = last();
        return last != null && last.inPlace() ? last : null;
    }

    /** The latest insertion, whether in place or not; null before the first. */
    @Nullable
    Tamponade last() {
        return tamponades.isEmpty() ? null : tamponades.get(tamponades.size() - 1);
    }

    void replaceLast(Tamponade tamponade) {
        tamponades = tamponades.with(tamponades.size() - 1, tamponade);
    }

    CaseState after() {
        return new CaseState(
                progress,
                loss,
                vitals,
                tamponades,
                urine,
                fluids,
                medicines,
                checks,
                stability,
                laboratory,
                nearMiss,
                readiness,
                openFlags,
                timers,
                absent,
                instant,
                fundusCm);
    }

    List<CaseFact> facts() {
        return List.copyOf(facts);
    }

    /** A flag that begins at that time; nothing is raised by this. */
    Flag flag(
            FlagKind kind,
            String part,
            Severity severity,
            OffsetDateTime start,
            String text,
            String rule,
            FactInput... evidence) {
        OffsetDateTime recorded = envelope.recordedAt();
        return new Flag(
                FactKey.of(kind, event, part),
                kind,
                severity,
                start,
                recorded.isAfter(start) ? recorded : start,
                null,
                null,
                text,
                rule,
                List.of(evidence));
    }

    private void endSlot(String slot, FlagEndReason reason) {
        Flag flag = openFlags.get(slot);
        if (flag != null) {
            openFlags = openFlags.minus(slot);
            facts.add(flag.ended(new Flag.Ending(at(), reason, reading(Reading.EVENT))));
        }
    }

    private static String slot(FlagKind kind, String part) {
        return kind.code() + "/" + part;
    }
}
