package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.birth;
import static example.tamponade.core.casefile.Bedside.bleeding;
import static example.tamponade.core.casefile.Bedside.correction;
import static example.tamponade.core.casefile.Bedside.drained;
import static example.tamponade.core.casefile.Bedside.drape;
import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.filled;
import static example.tamponade.core.casefile.Bedside.fundus;
import static example.tamponade.core.casefile.Bedside.given;
import static example.tamponade.core.casefile.Bedside.inserted;
import static example.tamponade.core.casefile.Bedside.lost;
import static example.tamponade.core.casefile.Bedside.opened;
import static example.tamponade.core.casefile.Bedside.outcome;
import static example.tamponade.core.casefile.Bedside.position;
import static example.tamponade.core.casefile.Bedside.pressureUnrecordable;
import static example.tamponade.core.casefile.Bedside.recognised;
import static example.tamponade.core.casefile.Bedside.referral;
import static example.tamponade.core.casefile.Bedside.removed;
import static example.tamponade.core.casefile.Bedside.retraction;
import static example.tamponade.core.casefile.Bedside.urine;
import static example.tamponade.core.casefile.Bedside.vitals;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.BalloonPosition;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.core.event.RemovalReason;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.Setting;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class CaseFileProperties {

    private static final List<FlagKind> BLEEDING = List.of(
            FlagKind.CONTROL_DEADLINE_MISSED,
            FlagKind.BLEEDING_RECURRED,
            FlagKind.BLEEDING_DURING_DEFLATION,
            FlagKind.BLEEDING_AFTER_REMOVAL);

    private static final CareProtocol PROTOCOL = CareProtocol.standard();

    @Property(tries = 300)
    void theOrderOfArrivalDoesNotMatter(@ForAll("histories") List<EventEnvelope> history, @ForAll Random random) {
        List<EventEnvelope> shuffled = new ArrayList<>(history);
        Collections.shuffle(shuffled, random);

        CaseFile inOrder = CaseFile.of(Bedside.CASE, PROTOCOL, history);
        CaseFile arrived = CaseFile.of(Bedside.CASE, PROTOCOL, shuffled);

        assertThat(arrived.entries()).isEqualTo(inOrder.entries());
        assertThat(arrived.facts()).isEqualTo(inOrder.facts());
        assertThat(arrived.withdrawn()).isEqualTo(inOrder.withdrawn());
    }

    @Property(tries = 300)
    void theChangesAddUpToTheWhole(@ForAll("histories") List<EventEnvelope> history) {
        CaseFile file = CaseFile.empty(Bedside.CASE, PROTOCOL);
        Map<FactKey, CaseFact> issued = new LinkedHashMap<>();
        for (EventEnvelope event : history) {
            CaseChange change = file.apply(event);
            change.facts().forEach(it -> issued.put(it.key(), it));
            change.gone().forEach(issued::remove);
            file = change.after();
        }

        assertThat(issued.values()).containsExactlyInAnyOrderElementsOf(file.facts());
    }

    @Property(tries = 300)
    void volumesAreNeverNegativeAndTotalsNeverFall(@ForAll("histories") List<EventEnvelope> history) {
        CaseFile file = CaseFile.of(Bedside.CASE, PROTOCOL, history);

        assertThat(amounts(file, FactKind.TAMPONADE_CHAMBER_VOLUME))
                .allMatch(it -> it.value().signum() >= 0);
        assertThat(amounts(file, FactKind.CUMULATIVE_BLOOD_LOSS).stream().map(FactValue.Amount::value))
                .isSorted();
    }

    @Property(tries = 300)
    void timePassedAtOnceOrInStepsIsTheSame(@ForAll("histories") List<EventEnvelope> history) {
        CaseFile file = CaseFile.of(Bedside.CASE, PROTOCOL, history);
        CaseFile inSteps = file;
        for (int minute = 0; minute <= 3000; minute += 500) {
            inSteps = inSteps.advanceTo(Bedside.minute(minute)).after();
        }

        assertThat(inSteps.facts())
                .isEqualTo(file.advanceTo(Bedside.minute(3000)).after().facts());
    }

    @Property(tries = 300)
    void activeBleedingPastTheDeadlineIsNeverWithoutItsWarning(@ForAll("bleedings") List<EventEnvelope> history) {
        CaseFile file = CaseFile.of(Bedside.CASE, PROTOCOL, history);
        OffsetDateTime inserted = null;
        for (CaseEntry entry : file.entries()) {
            OffsetDateTime at = entry.event().occurredAt();
            if (entry.data() instanceof TamponadeInserted) {
                inserted = at;
            } else if (entry.data() instanceof BleedingChecked check
                    && check.amount() == BleedingAmount.HEAVY
                    && inserted != null
                    && at.isAfter(inserted.plus(PROTOCOL.duration(Setting.CONTROL_DEADLINE)))) {
                assertThat(file.facts())
                        .anySatisfy(it -> assertThat(it).isInstanceOfSatisfying(Flag.class, flag -> {
                            assertThat(flag.kind()).isIn(BLEEDING);
                            assertThat(flag.start()).isBeforeOrEqualTo(at);
                            assertThat(flag.end() == null || !flag.end().isBefore(at))
                                    .isTrue();
                        }));
            }
        }
    }

    @Property(tries = 300)
    void aFlagEndsAfterItBegan(@ForAll("histories") List<EventEnvelope> history) {
        CaseFile file = CaseFile.of(Bedside.CASE, PROTOCOL, history);

        assertThat(file.facts()).allSatisfy(it -> {
            if (it instanceof Flag flag && flag.end() != null) {
                assertThat(flag.end().toInstant()).isAfterOrEqualTo(flag.start().toInstant());
            }
        });
    }

    // The state after all of it; readings of one kind have each their own.
    @Property(tries = 300)
    void ofOneInstantThereIsOneFactOfAKind(@ForAll("histories") List<EventEnvelope> history) {
        CaseFile file = CaseFile.of(Bedside.CASE, PROTOCOL, history);
        List<DerivedValue> states = file.facts().stream()
                .filter(it -> it instanceof DerivedValue value && !value.kind().isOfOneReading())
                .map(DerivedValue.class::cast)
                .toList();

        assertThat(states.stream()
                        .map(it ->
                                it.kind() + " " + it.tamponade() + " " + it.at().toInstant()))
                .doesNotHaveDuplicates();
        assertThat(states).noneMatch(it -> it.inputs().contains(new FactInput.OfFact(it.key())));
    }

    @Property(tries = 300)
    void aValueIsIssuedOnceAllOfWhatItIsDerivedFromIsRecorded(@ForAll("histories") List<EventEnvelope> history) {
        CaseFile file = CaseFile.of(Bedside.CASE, PROTOCOL, history);
        Map<FactKey, DerivedValue> values = new HashMap<>();
        for (CaseFact fact : file.facts()) {
            if (fact instanceof DerivedValue value) {
                values.put(value.key(), value);
            }
        }

        assertThat(values.values())
                .allSatisfy(value -> assertThat(value.issued().toInstant())
                        .isEqualTo(value.inputs().stream()
                                .map(it -> it instanceof FactInput.OfFact of
                                        ? Objects.requireNonNull(values.get(of.key()))
                                                .issued()
                                        : Objects.requireNonNull(file.entry(((FactInput.OfEvent) it).event()))
                                                .event()
                                                .recordedAt())
                                .map(OffsetDateTime::toInstant)
                                .max(Comparator.naturalOrder())
                                .orElseThrow()));
    }

    @Property(tries = 300)
    void everyInputOfAFactIsThere(@ForAll("histories") List<EventEnvelope> history) {
        CaseFile file = CaseFile.of(Bedside.CASE, PROTOCOL, history);
        List<FactKey> keys = file.facts().stream().map(CaseFact::key).toList();

        file.facts().stream()
                .filter(DerivedValue.class::isInstance)
                .flatMap(it -> ((DerivedValue) it).inputs().stream())
                .filter(FactInput.OfFact.class::isInstance)
                .forEach(it -> assertThat(keys).contains(((FactInput.OfFact) it).key()));
    }

    private static List<FactValue.Amount> amounts(CaseFile file, FactKind kind) {
        return file.facts().stream()
                .filter(DerivedValue.class::isInstance)
                .map(DerivedValue.class::cast)
                .filter(it -> it.kind() == kind)
                .map(it -> (FactValue.Amount) it.value())
                .toList();
    }

    // Random nights: every third event corrects or retracts one before it, some of them twice.
    @Provide
    Arbitrary<List<EventEnvelope>> histories() {
        Arbitrary<Step> steps = Combinators.combine(
                        Arbitraries.integers().between(0, 1800),
                        data(),
                        Arbitraries.integers().between(0, 8),
                        Arbitraries.integers().between(0, 30))
                .as(Step::new);
        return steps.list().ofMinSize(1).ofMaxSize(40).map(CaseFileProperties::history);
    }

    /** What begins and ends the warnings of bleeding, close together. */
    @Provide
    Arbitrary<List<EventEnvelope>> bleedings() {
        Arbitrary<BedsideEvent> data = Arbitraries.oneOf(List.of(
                Arbitraries.just(inserted()),
                Arbitraries.of(100, 300).map(it -> filled(it)),
                Arbitraries.of(100, 300).map(it -> drained(it)),
                Arbitraries.of(BleedingAmount.values()).map(it -> bleeding(it)),
                Arbitraries.just(bleeding(BleedingAmount.HEAVY)),
                Arbitraries.of(RemovalReason.values()).map(it -> removed(it)),
                Arbitraries.of(ReferralStep.values()).map(it -> referral(it)),
                Arbitraries.of(MotherOutcome.values()).map(it -> outcome(it))));
        return Combinators.combine(Arbitraries.integers().between(0, 90), data)
                .as((minute, it) -> new Step(minute, it, 8, 0))
                .list()
                .ofMinSize(3)
                .ofMaxSize(12)
                .map(CaseFileProperties::history);
    }

    private record Step(int minute, BedsideEvent data, int choice, int target) {}

    private static List<EventEnvelope> history(List<Step> steps) {
        List<EventEnvelope> events = new ArrayList<>();
        for (int i = 0; i < steps.size(); i++) {
            Step step = steps.get(i);
            String target = "e" + (events.isEmpty() ? 0 : step.target() % events.size());
            boolean first = events.isEmpty();
            events.add(
                    switch (first ? 8 : step.choice()) {
                        case 0 -> retraction("e" + i, target, step.minute());
                        case 1, 2 -> correction("e" + i, target, step.minute(), step.minute() + 5, step.data());
                        default -> event("e" + i, step.minute(), step.data());
                    });
        }
        return events;
    }

    private static Arbitrary<BedsideEvent> data() {
        Arbitrary<Integer> volume = Arbitraries.integers().between(0, 700);
        return Arbitraries.oneOf(List.of(
                volume.map(it -> lost(it)),
                volume.map(it -> drape("main", it, 0, it % 5 == 0)),
                Arbitraries.integers().between(60, 160).map(it -> vitals(it, null, null)),
                Arbitraries.integers().between(60, 160).map(it -> vitals(100, it, 50)),
                Arbitraries.just(pressureUnrecordable(null)),
                Arbitraries.just(inserted()),
                volume.map(it -> filled(it)),
                volume.map(it -> drained(it / 4)),
                Arbitraries.of(BleedingAmount.values()).map(it -> bleeding(it)),
                Arbitraries.integers().between(-4, 4).map(it -> fundus(it)),
                volume.map(it -> urine(it / 10, 0, 1 + it % 180)),
                Arbitraries.of(55, 80).injectNull(0.5).map(it -> opened(it)),
                Arbitraries.integers().between(0, 60).map(it -> birth(it)),
                Arbitraries.just(recognised()),
                Arbitraries.of(Substance.values()).map(it -> given(it, 10, "mL")),
                Arbitraries.of(Substance.values()).map(it -> given(it, 10, "[iU]")),
                Arbitraries.of(BalloonPosition.values()).map(it -> position(it)),
                Arbitraries.of(RemovalReason.values()).map(it -> removed(it)),
                Arbitraries.of(ReferralStep.values()).map(it -> referral(it)),
                Arbitraries.of(MotherOutcome.values()).map(it -> outcome(it))));
    }
}
