package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.CASE;
import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.given;
import static example.tamponade.core.casefile.Bedside.id;
import static example.tamponade.core.casefile.Bedside.lost;
import static example.tamponade.core.casefile.Bedside.minute;
import static example.tamponade.core.casefile.Bedside.recognised;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Infusion;
import example.tamponade.core.event.Substance;
import example.tamponade.core.protocol.CareProtocol;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** 40 IU in 500 mL at 125 mL/h are 10 IU an hour: RCOG Green-top Guideline 52, 2016, from memory; the rest is arithmetic. */
class InfusionTest {

    @Test
    void whatRanInIsTheRateByTheTime() {
        CaseFile file = file(List.of(event("a", 0, oxytocin(1, 125)), event("b", 90, oxytocin(1, 0))));

        assertThat(amount(file, FactKind.FLUIDS_IN, "b")).isEqualByComparingTo("187.5");
        assertThat(amount(file, FactKind.OXYTOCIN_TOTAL, "b")).isEqualByComparingTo("15");
        assertThat(amount(file, FactKind.FLUID_BALANCE, "b")).isEqualByComparingTo("187.5");
    }

    @Test
    void everyTotalCountsWhatRanInUntilThen() {
        CaseFile file = file(List.of(
                event("a", 0, oxytocin(1, 125)),
                event("b", 60, lost(300)),
                event("c", 120, given(Substance.OXYTOCIN, 10, "[iU]")),
                event("d", 180, given(Substance.CRYSTALLOID, 500, "mL"))));

        assertThat(amount(file, FactKind.FLUID_BALANCE, "b")).isEqualByComparingTo("-175");
        assertThat(amount(file, FactKind.OXYTOCIN_TOTAL, "c")).isEqualByComparingTo("30");
        assertThat(amount(file, FactKind.FLUIDS_IN, "d")).isEqualByComparingTo("875");
        assertThat(amount(file, FactKind.OXYTOCIN_TOTAL, "d")).isEqualByComparingTo("40");
        assertThat(inputs(file, FactKind.OXYTOCIN_TOTAL, "c"))
                .containsExactlyInAnyOrder(
                        new FactInput.OfFact(FactKey.of(FactKind.OXYTOCIN_TOTAL, id("b"))),
                        new FactInput.OfEvent(id("a"), Reading.EVENT),
                        new FactInput.OfEvent(id("c"), Reading.EVENT));
    }

    @Test
    void aBagGivesNoMoreThanItHeldAndIsMissedWhenItIsEmpty() {
        List<EventEnvelope> first = List.of(event("a", 0, oxytocin(1, 250)));
        assertThat(runOut(file(first).advanceTo(minute(120)).after())).isEmpty();
        assertThat(runOut(file(first).advanceTo(minute(121)).after())).containsExactly("MODERATE 120-null");

        List<EventEnvelope> events = List.of(
                event("a", 0, oxytocin(1, 250)),
                event("b", 60, oxytocin(1, 125)),
                event("c", 300, oxytocin(2, 125)),
                event("d", 420, oxytocin(2, 0)));
        assertThat(runOut(file(events))).containsExactly("MODERATE 180-300");
        assertThat(amount(file(events), FactKind.FLUIDS_IN, "c")).isEqualByComparingTo("500");
        assertThat(amount(file(events), FactKind.FLUIDS_IN, "d")).isEqualByComparingTo("750");
        assertThat(amount(file(events), FactKind.OXYTOCIN_TOTAL, "d")).isEqualByComparingTo("60");
    }

    @Test
    void aSingleDoseThatHasRunInIsNotMissedAndAFluidIsALittle() {
        List<EventEnvelope> dose = List.of(event("a", 0, tranexamicAcid(600)));
        assertThat(runOut(file(dose).advanceTo(minute(500)).after())).isEmpty();

        Infusion fluid = new Infusion(2, 1, Substance.CRYSTALLOID, null, null, null, new BigDecimal(1000), number(500));
        assertThat(runOut(file(List.of(event("a", 0, fluid)))
                        .advanceTo(minute(500))
                        .after()))
                .containsExactly("LOW 120-null");
    }

    // The first dose begins the wait for a second; what goes on running is the same dose.
    @Test
    void aBagIsADoseWhenItBeginsToRun() {
        CaseFile file = file(List.of(
                event("hung", 0, tranexamicAcid(0)),
                event("begun", 5, tranexamicAcid(300)),
                event("slower", 10, tranexamicAcid(200)),
                event("stopped", 15, tranexamicAcid(0)),
                event("resumed", 20, tranexamicAcid(300))));

        assertThat(file.facts().stream()
                        .map(CaseFact::key)
                        .filter(it -> it.code().equals(FactKind.ANTIFIBRINOLYTIC_SECOND_DOSE_FROM.code())))
                .containsExactly(FactKey.of(FactKind.ANTIFIBRINOLYTIC_SECOND_DOSE_FROM, id("begun")));
        assertThat(amount(file, FactKind.ANTIFIBRINOLYTIC_TOTAL, "stopped").setScale(3, RoundingMode.HALF_UP))
                .isEqualByComparingTo("416.667");
    }

    @Test
    void anInfusionIsAnAnswerToAHaemorrhageFromWhenItRuns() {
        EventEnvelope known = event("known", 0, recognised());
        assertThat(late(known, event("a", 5, oxytocin(1, 0)))).isEqualTo(1);
        assertThat(late(known, event("a", 5, oxytocin(1, 125)))).isZero();
    }

    // The smallest rate that intake takes, by the digits of a number.
    @Test
    void aRateNextToNothingNeverEmptiesTheBag() {
        Infusion slow = new Infusion(
                1,
                1,
                Substance.OXYTOCIN,
                null,
                new BigDecimal(40),
                "[iU]",
                new BigDecimal(5000),
                new BigDecimal("0.000000000000001"));
        CaseFile file = file(List.of(event("a", 0, slow), event("b", 60, lost(10))));

        assertThat(runOut(file.advanceTo(minute(100_000)).after())).isEmpty();
        assertThat(amount(file, FactKind.FLUID_BALANCE, "b")).isCloseTo(new BigDecimal(-10), within(BigDecimal.ONE));
    }

    // Σ rate × time, whatever else was recorded meanwhile.
    @Property(tries = 100)
    void theTotalIsTheSumOfTheRatesByTheirTimes(
            @ForAll @Size(min = 1, max = 12) List<@IntRange(min = 0, max = 60) Integer> ratesPerMinuteTimesSixty,
            @ForAll @IntRange(min = 1, max = 3) int otherEvery) {
        List<EventEnvelope> events = new ArrayList<>();
        BigDecimal expectedMl = BigDecimal.ZERO;
        for (int i = 0; i < ratesPerMinuteTimesSixty.size(); i++) {
            int rate = ratesPerMinuteTimesSixty.get(i);
            events.add(event("rate " + i, i * 10, oxytocin(1, rate * 6)));
            expectedMl = expectedMl.add(BigDecimal.valueOf(rate));
            if (i % otherEvery == 0) {
                events.add(event("other " + i, i * 10 + 4, lost(10)));
            }
        }
        events.add(event("end", ratesPerMinuteTimesSixty.size() * 10, oxytocin(1, 0)));
        BigDecimal totalMl = lastAmount(file(events), FactKind.FLUIDS_IN);

        assertThat(totalMl == null ? BigDecimal.ZERO : totalMl)
                .isEqualByComparingTo(expectedMl.min(new BigDecimal(500)));
    }

    private static Infusion oxytocin(int bag, int rate) {
        return new Infusion(
                1, bag, Substance.OXYTOCIN, null, new BigDecimal(40), "[iU]", new BigDecimal(500), number(rate));
    }

    private static Infusion tranexamicAcid(int rate) {
        return new Infusion(
                3, 1, Substance.TRANEXAMIC_ACID, null, BigDecimal.ONE, "g", new BigDecimal(100), number(rate));
    }

    private static BigDecimal number(int value) {
        return BigDecimal.valueOf(value);
    }

    private static CaseFile file(List<EventEnvelope> events) {
        return CaseFile.of(CASE, CareProtocol.standard(), events);
    }

    private static long late(EventEnvelope... events) {
        return file(List.of(events)).advanceTo(minute(60)).after().facts().stream()
                .filter(it -> it instanceof Flag flag && flag.kind() == FlagKind.FIRST_RESPONSE_LATE)
                .count();
    }

    private static List<String> runOut(CaseFile file) {
        List<String> flags = new ArrayList<>();
        for (CaseFact fact : file.facts()) {
            if (fact instanceof Flag flag && flag.kind() == FlagKind.INFUSION_RUN_OUT) {
                flags.add(flag.severity() + " " + minutes(flag.start()) + "-"
                        + (flag.end() == null ? "null" : minutes(Objects.requireNonNull(flag.end()))));
            }
        }
        return flags;
    }

    private static long minutes(OffsetDateTime time) {
        return Duration.between(minute(0), time).toMinutes();
    }

    private static BigDecimal amount(CaseFile file, FactKind kind, String event) {
        return ((FactValue.Amount) derived(file, kind, event).value()).value();
    }

    private static List<FactInput> inputs(CaseFile file, FactKind kind, String event) {
        return derived(file, kind, event).inputs();
    }

    private static DerivedValue derived(CaseFile file, FactKind kind, String event) {
        return (DerivedValue) file.facts().stream()
                .filter(it -> it.key().equals(FactKey.of(kind, id(event))))
                .findFirst()
                .orElseThrow();
    }

    private static @Nullable BigDecimal lastAmount(CaseFile file, FactKind kind) {
        BigDecimal last = null;
        for (CaseFact fact : file.facts()) {
            if (fact instanceof DerivedValue value
                    && value.kind() == kind
                    && value.value() instanceof FactValue.Amount amount) {
                last = amount.value();
            }
        }
        return last;
    }
}
