package example.tamponade.app.rest;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.rest.annotation.IdParam;
import ca.uhn.fhir.rest.annotation.Operation;
import ca.uhn.fhir.rest.annotation.OptionalParam;
import ca.uhn.fhir.rest.annotation.Read;
import ca.uhn.fhir.rest.annotation.Search;
import ca.uhn.fhir.rest.api.server.RequestDetails;
import ca.uhn.fhir.rest.param.TokenParam;
import ca.uhn.fhir.rest.server.IResourceProvider;
import ca.uhn.fhir.rest.server.exceptions.InvalidRequestException;
import ca.uhn.fhir.rest.server.exceptions.ResourceNotFoundException;
import example.tamponade.app.access.Caller;
import example.tamponade.app.access.Role;
import example.tamponade.app.measure.MeasureCount;
import example.tamponade.app.measure.MeasureRule;
import example.tamponade.app.measure.Measures;
import example.tamponade.app.search.PackageDefinitions;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.IdType;
import org.hl7.fhir.r4.model.Measure;
import org.hl7.fhir.r4.model.MeasureReport;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/**
 * What an audit counts: the measures, and their reports. FHIR R4,
 * <a href="http://hl7.org/fhir/R4/measure-operation-evaluate-measure.html">Evaluate Measure</a>.
 */
public final class MeasureProvider implements IResourceProvider {

    private static final Set<String> PARAMETERS =
            Set.of("periodStart", "periodEnd", "reportType", "subject", "_format", "_pretty");
    private static final String FACILITY = "Group/facility-";

    private final Map<String, Measure> measures = new LinkedHashMap<>();
    private final Measures counts;
    private final MeasureReports reports;

    /** Counts by these measures. */
    public MeasureProvider(Measures counts, MeasureReports reports) {
        this.counts = counts;
        this.reports = reports;
        PackageDefinitions.all("Measure").forEach(it -> {
            Measure measure = FhirContext.forR4Cached().newJsonParser().parseResource(Measure.class, it.toString());
            measures.put(measure.getIdPart(), measure);
        });
    }

    @Override
    public Class<? extends IBaseResource> getResourceType() {
        return Measure.class;
    }

    /** One measure, with its criteria. */
    @Read
    public Measure read(@IdParam IdType id) {
        Measure measure = measures.get(id.getIdPart());
        if (measure == null) {
            throw new ResourceNotFoundException(
                    "no measure '" + id.getIdPart() + "'; there are " + String.join(", ", measures.keySet()));
        }
        return measure;
    }

    /** All measures. */
    @Search
    public List<Measure> search(@OptionalParam(name = Measure.SP_RES_ID) @Nullable TokenParam id) {
        return measures.values().stream()
                .filter(it -> id == null || it.getIdPart().equals(id.getValue()))
                .map(Content::found)
                .toList();
    }

    /** The report of one measure over a period, or the reports of all in a Bundle. */
    @Operation(name = "$evaluate-measure", idempotent = true)
    public Resource evaluate(@IdParam(optional = true) @Nullable IdType id, RequestDetails request) {
        Caller caller = Caller.current();
        boolean isBySubject = isBySubject(request);
        if (isBySubject || caller.is(Role.READER)) {
            caller.scopes().demandEverything();
        }
        List<MeasureRule> rules = id == null ? List.of(MeasureRule.values()) : List.of(rule(id));
        Measures.Period period = period(request);
        List<MeasureReport> made = counts.count(rules, period, caller.compartment()).stream()
                .map(it -> report(it, period, isBySubject, caller))
                .toList();
        if (id != null) {
            return made.get(0);
        }
        Bundle bundle = new Bundle();
        bundle.setType(Bundle.BundleType.COLLECTION);
        made.forEach(it -> bundle.addEntry().setResource(it));
        return bundle;
    }

    private MeasureReport report(MeasureCount count, Measures.Period period, boolean isBySubject, Caller caller) {
        Measure measure = read(new IdType(count.rule().code()));
        return isBySubject
                ? reports.bySubject(measure, count, period, caller.compartment())
                : reports.summary(measure, count, period);
    }

    private MeasureRule rule(IdType id) {
        return MeasureRule.of(read(id).getIdPart()).orElseThrow();
    }

    private static boolean isBySubject(RequestDetails request) {
        request.getParameters().keySet().stream()
                .filter(it -> !PARAMETERS.contains(it))
                .forEach(it -> {
                    throw new InvalidRequestException("$evaluate-measure has no '" + it
                            + "' here; it has periodStart, periodEnd, reportType and subject");
                });
        String type = value(request, "reportType", "population");
        if (!Set.of("population", "summary", "subject-list").contains(type)) {
            throw new InvalidRequestException("reportType: '" + type + "' is none; use population or subject-list");
        }
        return type.equals("subject-list");
    }

    private static Measures.Period period(RequestDetails request) {
        String subject = value(request, "subject", "");
        if (!subject.isEmpty() && !subject.startsWith(FACILITY)) {
            throw new InvalidRequestException(
                    "subject: '" + subject + "' is none that is counted here; write " + FACILITY + "ID for a facility");
        }
        try {
            return new Measures.Period(
                    day(value(request, "periodStart", ""), false),
                    day(value(request, "periodEnd", ""), true),
                    subject.isEmpty() ? null : subject.substring(FACILITY.length()));
        } catch (DateTimeException e) {
            throw new InvalidRequestException(
                    "periodStart and periodEnd: write days or months, as 2026-03-01 and 2026-03-31, or 2026-03", e);
        } catch (IllegalArgumentException e) {
            throw new InvalidRequestException(e.getMessage(), e);
        }
    }

    private static LocalDate day(String text, boolean isEnd) {
        if (text.length() == "2026-03".length()) {
            YearMonth month = YearMonth.parse(text);
            return isEnd ? month.atEndOfMonth() : month.atDay(1);
        }
        return LocalDate.parse(text);
    }

    private static String value(RequestDetails request, String name, String otherwise) {
        String[] values = request.getParameters().get(name);
        return values == null ? otherwise : Arrays.stream(values).findFirst().orElse(otherwise);
    }
}
