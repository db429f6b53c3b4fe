package example.tamponade.app.summary;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.TamponadeRemoved;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.fhir.terms.Terms;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** Gathers what the charts of a case's page draw from its case file. */
final class CourseBuilder {

    // Readings further apart than this are not joined: what was between them nobody knows.
    private static final Duration LONGEST_JOINED = Duration.ofHours(2);

    private final CaseFile file;
    private final OffsetDateTime now;
    private final PageTimes times;
    private final Terms terms;

    CourseBuilder(CaseFile file, OffsetDateTime now, PageTimes times, Terms terms) {
        this.file = file;
        this.now = now;
        this.times = times;
        this.terms = terms;
    }

    Course course() {
        return new Course(
                times.seconds(now),
                List.of(
                        new Course.Panel(
                                "Balloon", "mL", List.of(state("In the uterus", FactKind.TAMPONADE_CHAMBER_VOLUME))),
                        new Course.Panel(
                                "Blood loss so far",
                                "mL",
                                List.of(stepped("Blood loss", FactKind.CUMULATIVE_BLOOD_LOSS))),
                        new Course.Panel(
                                "Shock index", "", List.of(joined("Shock index", facts(FactKind.SHOCK_INDEX)))),
                        new Course.Panel(
                                "Pulse and pressure",
                                "/min, mmHg",
                                List.of(
                                        signs("Pulse, /min", VitalSigns::pulse),
                                        signs("Systolic, mmHg", VitalSigns::systolic),
                                        signs("Diastolic, mmHg", VitalSigns::diastolic))),
                        new Course.Panel(
                                "Urine", "mL/h", List.of(joined("Urine rate", facts(FactKind.ROLLING_URINE_RATE))))),
                marks());
    }

    // What is in the balloon stays there until it is let out, or until it is taken out.
    private Course.Series state(String label, FactKind kind) {
        List<Course.Point> points = facts(kind);
        for (CaseEntry entry : file.entries()) {
            if (entry.data() instanceof TamponadeRemoved) {
                points.add(new Course.Point(times.seconds(entry.event().occurredAt()) + 1, null));
            }
        }
        points.sort(Comparator.comparing(Course.Point::at));
        if (!points.isEmpty() && !new Trend(file, now, times).isOut(now)) {
            points.add(new Course.Point(
                    times.seconds(now), points.get(points.size() - 1).value()));
        }
        return new Course.Series(label, true, points);
    }

    private Course.Series stepped(String label, FactKind kind) {
        return new Course.Series(label, true, facts(kind));
    }

    private static Course.Series joined(String label, List<Course.Point> points) {
        List<Course.Point> broken = new ArrayList<>();
        for (Course.Point point : points) {
            Course.Point last = broken.isEmpty() ? point : broken.get(broken.size() - 1);
            if (point.at() - last.at() > LONGEST_JOINED.toSeconds()) {
                broken.add(new Course.Point(last.at() + 1, null));
            }
            broken.add(point);
        }
        return new Course.Series(label, false, broken);
    }

    private List<Course.Point> facts(FactKind kind) {
        List<Course.Point> points = new ArrayList<>();
        file.facts().stream()
                .filter(DerivedValue.class::isInstance)
                .map(DerivedValue.class::cast)
                .filter(it -> it.kind() == kind)
                .sorted(Comparator.comparing(it -> it.at().toInstant()))
                .forEach(it -> points.add(new Course.Point(
                        times.seconds(it.at()),
                        it.value() instanceof FactValue.Amount amount ? amount.rounded() : null)));
        return points;
    }

    private Course.Series signs(String label, Function<VitalSigns, @Nullable BigDecimal> reading) {
        List<Course.Point> points = new ArrayList<>();
        for (CaseEntry entry : file.entries()) {
            BigDecimal value = entry.data() instanceof VitalSigns signs ? reading.apply(signs) : null;
            if (value != null) {
                points.add(new Course.Point(times.seconds(entry.event().occurredAt()), value));
            }
        }
        return joined(label, points);
    }

    private List<Course.Mark> marks() {
        List<Course.Mark> marks = new ArrayList<>();
        file.facts().stream()
                .filter(Flag.class::isInstance)
                .map(Flag.class::cast)
                .forEach(it -> marks.add(
                        new Course.Mark(times.seconds(it.start()), it.severity().code(), it.text())));
        for (CaseEntry entry : file.entries()) {
            long at = times.seconds(entry.event().occurredAt());
            if (entry.data() instanceof MedicineGiven given) {
                marks.add(new Course.Mark(at, "medicine", FactWords.of(given, terms)));
            }
            // No number tells it, and it is the worst reading that there is.
            if (entry.data() instanceof VitalSigns signs && Boolean.TRUE.equals(signs.pressureUnrecordable())) {
                marks.add(new Course.Mark(at, "high", "Pressure not recordable"));
            }
        }
        marks.sort(Comparator.comparing(Course.Mark::at));
        return marks;
    }
}
