package example.tamponade.app.summary;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactInput;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.casefile.RecordIssue;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.EventType;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.Referral;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Terms;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Draws the page of a case from its case file. */
public final class SummaryBuilder {

    private static final Duration HOUR = Duration.ofHours(1);

    // Every value that a reader looks for first; shown as missing where the case has none.
    private static final List<FactKind> TOTALS = List.of(
            FactKind.CUMULATIVE_BLOOD_LOSS,
            FactKind.SHARE_OF_BLOOD_VOLUME_LOST,
            FactKind.HAEMORRHAGE_SEVERITY,
            FactKind.SHOCK_INDEX,
            FactKind.MEAN_ARTERIAL_PRESSURE,
            FactKind.TAMPONADE_PHASE,
            FactKind.DEFLATION_ELIGIBLE_FROM,
            FactKind.TAMPONADE_CHAMBER_VOLUME,
            FactKind.RETENTION_CHAMBER_VOLUME,
            FactKind.INSERTION_TO_CONTROL,
            FactKind.TIME_IN_SITU,
            FactKind.ROLLING_URINE_RATE,
            FactKind.FLUID_BALANCE,
            FactKind.OXYTOCIN_TOTAL,
            FactKind.ANTIFIBRINOLYTIC_TOTAL,
            FactKind.ANTIFIBRINOLYTIC_SECOND_DOSE_FROM,
            FactKind.BIRTH_TO_ANTIFIBRINOLYTIC,
            FactKind.CHECKS_COMPLETENESS,
            FactKind.NEXT_CHECK_DUE,
            FactKind.OUTCOME_CLASS);

    private static final Set<EventType> TIMES = EnumSet.of(
            EventType.BIRTH,
            EventType.HAEMORRHAGE_RECOGNISED,
            EventType.TAMPONADE_INSERTED,
            EventType.TAMPONADE_REMOVED,
            EventType.REFERRAL,
            EventType.OUTCOME);

    private static final Set<FactKind> WHILE_IN_PLACE = EnumSet.of(
            FactKind.TAMPONADE_CHAMBER_VOLUME, FactKind.RETENTION_CHAMBER_VOLUME, FactKind.DEFLATION_ELIGIBLE_FROM);

    private static final Set<FactKind> AGEING =
            EnumSet.of(FactKind.SHOCK_INDEX, FactKind.MEAN_ARTERIAL_PRESSURE, FactKind.ROLLING_URINE_RATE);

    private final Terms terms;

    /** Names things by these terms. */
    public SummaryBuilder(Terms terms) {
        this.terms = terms;
    }

    /**
     * The page of a case, as of its latest event.
     *
     * @param refused how many pieces of the input were refused; any of them may belong to this case
     */
    public CaseSummary summary(CaseFile recorded, long refused) {
        return summary(recorded, refused, end(recorded));
    }

    private static OffsetDateTime end(CaseFile recorded) {
        return recorded.entries().stream()
                .map(it -> it.event().occurredAt())
                .max(Comparator.comparing(OffsetDateTime::toInstant))
                .orElseThrow(() -> new IllegalArgumentException(
                        "case " + recorded.caseId() + " has no event that stands; send what its events withdraw, too"));
    }

    /** The time that a page of a case is for: now while it is open, its last event when it is closed. */
    public static OffsetDateTime timeOf(CaseFile recorded, Instant now) {
        OffsetDateTime end = end(recorded);
        return recorded.closedAt() == null && now.isAfter(end.toInstant()) ? now.atOffset(end.getOffset()) : end;
    }

    /** What the charts of a case's page draw. */
    public Course course(CaseFile file, OffsetDateTime now) {
        return new CourseBuilder(file, now, new PageTimes(file), terms).course();
    }

    /**
     * The page of a case as it stands at a time.
     *
     * @param refused how many pieces of the input were refused; any of them may belong to this case
     * @param now the time, no earlier than its latest event
     */
    public CaseSummary summary(CaseFile recorded, long refused, OffsetDateTime now) {
        OffsetDateTime end = end(recorded);
        CaseFile file = recorded.advanceTo(now).after();
        PageTimes clock = new PageTimes(file);
        Trend trend = new Trend(file, now, clock);
        return new CaseSummary(
                "Case " + file.caseId().number() + " of " + file.caseId().facilityId() + mother(file),
                "As recorded up to " + clock.of(end)
                        + (now.isAfter(end) ? ", seen at " + clock.of(now) : "") + ", " + clock.words()
                        + "; care protocol " + protocol(file.protocol()),
                refused == 0
                        ? ""
                        : "Not on this page: " + refused
                                + " refused pieces of the input. Look at them before relying on"
                                + " what is or is not here.",
                new LastReadings(file, trend, terms, clock).lines(),
                times(file, clock),
                medicines(file, clock),
                totals(file, trend, clock),
                hours(file, trend, end, clock),
                warnings(file, true, clock),
                warnings(file, false, clock),
                doubts(file, clock),
                CaseMapper.CAUTION);
    }

    // The beginning of its digest is enough for an eye to tell two apart.
    private static String protocol(CareProtocol protocol) {
        return protocol.id() + " " + protocol.version() + " ("
                + protocol.digest().substring(0, 8) + ")";
    }

    private static String mother(CaseFile file) {
        return file.entries().stream()
                .map(CaseEntry::data)
                .filter(CaseOpened.class::isInstance)
                .map(it -> ((CaseOpened) it).mother().name())
                .filter(it -> it != null)
                .findFirst()
                .map(it -> ", " + it)
                .orElse(", name " + FactWords.NOT_RECORDED);
    }

    private List<CaseSummary.Line> times(CaseFile file, PageTimes clock) {
        return file.entries().stream()
                .filter(it -> TIMES.contains(EventType.of(it.data())))
                .map(it -> new CaseSummary.Line(
                        label(it.data()), clock.of(it.event().occurredAt()), ""))
                .toList();
    }

    private List<CaseSummary.Line> medicines(CaseFile file, PageTimes clock) {
        return file.entries().stream()
                .filter(it -> it.data() instanceof MedicineGiven)
                .map(it -> new CaseSummary.Line(
                        FactWords.of((MedicineGiven) it.data(), terms),
                        clock.of(it.event().occurredAt()),
                        ""))
                .toList();
    }

    private String label(BedsideEvent event) {
        String type =
                terms.display(terms.system("event-type"), EventType.of(event).code());
        if (event instanceof Referral referral) {
            return type + ": "
                    + terms.display(
                            terms.system("referral-step"), referral.step().code());
        }
        return event instanceof Outcome outcome
                ? type + ": "
                        + terms.display(
                                terms.system("mother-outcome"), outcome.mother().code())
                : type;
    }

    private List<CaseSummary.Line> totals(CaseFile file, Trend trend, PageTimes clock) {
        Map<FactKind, DerivedValue> latest = new EnumMap<>(FactKind.class);
        values(file.facts()).forEach(it -> latest.put(it.kind(), it));
        List<CaseSummary.Line> lines = new ArrayList<>();
        for (FactKind kind : TOTALS) {
            String label = terms.display(terms.system("derived-fact"), kind.code());
            DerivedValue value = latest.get(kind);
            lines.add(
                    value == null
                            ? new CaseSummary.Line(label, FactWords.NOT_RECORDED, "")
                            : new CaseSummary.Line(
                                    label,
                                    WHILE_IN_PLACE.contains(kind) && trend.isOut(trend.now())
                                            ? "removed"
                                            : FactWords.of(value.value(), clock),
                                    clock.of(value.at()) + ", " + trend.age(value.at(), AGEING.contains(kind))));
        }
        return lines;
    }

    private static List<CaseSummary.Hour> hours(CaseFile file, Trend trend, OffsetDateTime end, PageTimes clock) {
        List<CaseSummary.Hour> hours = new ArrayList<>();
        OffsetDateTime begin = file.entries()
                .get(0)
                .event()
                .occurredAt()
                .withOffsetSameInstant(clock.offset())
                .truncatedTo(ChronoUnit.HOURS);
        for (OffsetDateTime hour = begin.plus(HOUR); hour.isBefore(end.plus(HOUR)); hour = hour.plus(HOUR)) {
            OffsetDateTime until = hour.isAfter(end) ? end : hour;
            hours.add(new CaseSummary.Hour(
                    clock.of(until), trend.bloodLoss(until), trend.shockIndex(until), trend.balloon(until)));
        }
        return hours;
    }

    private List<CaseSummary.Warning> warnings(CaseFile file, boolean standing, PageTimes clock) {
        Comparator<Flag> gravestFirst = Comparator.comparing(Flag::severity).reversed();
        Comparator<Flag> inOrder = Comparator.comparing(it -> it.start().toInstant());
        return file.facts().stream()
                .filter(Flag.class::isInstance)
                .map(Flag.class::cast)
                .filter(it -> standing == (it.end() == null))
                .sorted(standing ? gravestFirst.thenComparing(inOrder) : inOrder)
                .map(it -> new CaseSummary.Warning(it.severity().code(), words(it), span(it, file, clock), it.rule()))
                .toList();
    }

    private static String words(Flag flag) {
        return flag.isToBeRepeated() ? flag.text() + " Repeat to confirm." : flag.text();
    }

    private String span(Flag flag, CaseFile file, PageTimes clock) {
        Flag.Ending ending = flag.ending();
        return ending == null
                ? "since " + clock.of(flag.start())
                : clock.of(flag.start()) + " to " + clock.of(ending.at()) + ", " + why(ending, file);
    }

    private String why(Flag.Ending ending, CaseFile file) {
        return switch (ending.reason()) {
            case RESOLVED -> "ended by: " + by(ending.by(), file);
            case SUPERSEDED -> "another warning took its place";
            case NO_LONGER_OBSERVED -> "no longer observed, nothing shows that it is over";
        };
    }

    private String by(@Nullable FactInput input, CaseFile file) {
        CaseEntry entry = input instanceof FactInput.OfEvent event ? file.entry(event.event()) : null;
        return entry == null ? FactWords.NOT_RECORDED : label(entry.data());
    }

    private static List<String> doubts(CaseFile file, PageTimes clock) {
        return file.facts().stream()
                .filter(RecordIssue.class::isInstance)
                .map(RecordIssue.class::cast)
                .map(it -> clock.of(it.at()) + ": " + it.detail())
                .toList();
    }

    private static Stream<DerivedValue> values(List<CaseFact> facts) {
        return facts.stream().filter(DerivedValue.class::isInstance).map(DerivedValue.class::cast);
    }
}
