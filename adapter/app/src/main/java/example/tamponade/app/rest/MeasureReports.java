package example.tamponade.app.rest;

import example.tamponade.app.access.Compartment;
import example.tamponade.app.export.GroupedCases;
import example.tamponade.app.measure.MeasureCount;
import example.tamponade.app.measure.Measures;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Narratives;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.util.Date;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.Element;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.ListResource;
import org.hl7.fhir.r4.model.Measure;
import org.hl7.fhir.r4.model.MeasureReport;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Reference;

/** Counts as MeasureReports. A count that is too small to be told of nobody in particular is left out, and said to be. */
public final class MeasureReports {

    private static final String ABSENT = "http://hl7.org/fhir/StructureDefinition/data-absent-reason";
    private static final int DIGITS = 4;

    private final GroupedCases cases;
    private final Clock clock;
    private final int smallest;

    /**
     * Reports of those cases.
     *
     * @param smallest the smallest number of cases that is told in a summary; smaller ones but 0 are left out
     */
    public MeasureReports(GroupedCases cases, Clock clock, int smallest) {
        this.cases = cases;
        this.clock = clock;
        this.smallest = smallest;
    }

    /** Whether all that is told of this count in a summary is how many cases there are at most. */
    public boolean isSuppressed(MeasureCount count) {
        int not = count.asked().size() - count.met().size();
        return isSmall(count.asked().size()) || isSmall(count.met().size()) || isSmall(not);
    }

    private boolean isSmall(int cases) {
        return cases > 0 && cases < smallest;
    }

    MeasureReport summary(Measure measure, MeasureCount count, Measures.Period period) {
        MeasureReport report = begin(measure, period).setType(MeasureReport.MeasureReportType.SUMMARY);
        boolean isSuppressed = isSuppressed(count);
        MeasureReport.MeasureReportGroupComponent group = report.addGroup();
        number(group, measure, 0, count.cases(), isSmall(count.cases()));
        number(group, measure, 1, count.asked().size(), isSuppressed);
        number(group, measure, 2, count.met().size(), isSuppressed);
        if (isSuppressed) {
            group.setMeasureScore(absent(new Quantity(), "masked"));
        } else {
            score(group, count);
        }
        report.setText(Narratives.of(List.of(
                measure.getTitle() + ", " + period.from() + " to " + period.to() + ": "
                        + (isSuppressed ? "fewer cases than are told" : words(count)) + ".",
                CaseMapper.CAUTION)));
        return report;
    }

    /** Of which mothers; for those who may read whole cases. */
    MeasureReport bySubject(Measure measure, MeasureCount count, Measures.Period period, Compartment compartment) {
        MeasureReport report = begin(measure, period).setType(MeasureReport.MeasureReportType.SUBJECTLIST);
        MeasureReport.MeasureReportGroupComponent group = report.addGroup();
        number(group, measure, 0, count.cases(), false);
        Map<String, String> patients = cases.patients(count.asked(), compartment);
        number(group, measure, 1, count.asked().size(), false)
                .setSubjectResults(subjects(report, "asked", count.asked(), patients));
        number(group, measure, 2, count.met().size(), false)
                .setSubjectResults(subjects(report, "met", count.met(), patients));
        score(group, count);
        report.setText(Narratives.of(List.of(
                measure.getTitle() + ", " + period.from() + " to " + period.to() + ": " + words(count) + ".",
                CaseMapper.CAUTION)));
        return report;
    }

    private static String words(MeasureCount count) {
        return count.share().isEmpty()
                ? "no case was asked"
                : count.met().size() + " of " + count.asked().size() + " cases";
    }

    private MeasureReport begin(Measure measure, Measures.Period period) {
        MeasureReport report = new MeasureReport();
        report.setStatus(MeasureReport.MeasureReportStatus.COMPLETE);
        report.setMeasure(measure.getUrl() + "|" + measure.getVersion());
        report.setDate(Date.from(clock.instant()));
        report.setReporter(new Reference().setDisplay("Tamponade record adapter"));
        report.setPeriod(new Period()
                .setStartElement(new DateTimeType(period.from().toString()))
                .setEndElement(new DateTimeType(period.to().toString())));
        report.setImprovementNotation(measure.getImprovementNotation());
        if (period.facilityId() != null) {
            report.setSubject(new Reference("Group/facility-" + period.facilityId()));
        }
        return report;
    }

    private static MeasureReport.MeasureReportGroupPopulationComponent number(
            MeasureReport.MeasureReportGroupComponent group, Measure measure, int place, int count, boolean isMasked) {
        MeasureReport.MeasureReportGroupPopulationComponent population = group.addPopulation()
                .setCode(measure.getGroupFirstRep().getPopulation().get(place).getCode());
        if (isMasked) {
            absent(population.getCountElement(), "masked");
        } else {
            population.setCount(count);
        }
        return population;
    }

    // Where none was asked there is no share, neither none nor all.
    private static void score(MeasureReport.MeasureReportGroupComponent group, MeasureCount count) {
        if (count.share().isEmpty()) {
            group.setMeasureScore(absent(new Quantity(), "not-applicable"));
        } else {
            group.setMeasureScore(new Quantity()
                    .setValue(BigDecimal.valueOf(count.share().getAsDouble()).setScale(DIGITS, RoundingMode.HALF_UP))
                    .setSystem("http://unitsofmeasure.org")
                    .setCode("1"));
        }
    }

    private static <T extends Element> T absent(T element, String why) {
        element.addExtension(new Extension(ABSENT, new CodeType(why)));
        return element;
    }

    private static Reference subjects(
            MeasureReport report, String id, List<String> keys, Map<String, String> patients) {
        ListResource list = new ListResource();
        list.setId(id);
        list.setStatus(ListResource.ListStatus.CURRENT).setMode(ListResource.ListMode.SNAPSHOT);
        keys.forEach(it -> list.addEntry().setItem(new Reference("Patient/" + patients.get(it))));
        report.addContained(list);
        return new Reference("#" + id);
    }
}
