package example.tamponade.app.search;

import ca.uhn.fhir.context.FhirContext;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Enumeration;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.PrimitiveType;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/**
 * What of a resource the index holds. How values are read: FHIR R4, <a href="http://hl7.org/fhir/R4/search.html">Search</a>,
 * token, reference, date and uri.
 */
final class IndexRows {

    /** A code, an identifier, an address, or what is referred to: its type as the system and its id as the value. */
    record Value(String path, String system, String value) {}

    /** A time span in milliseconds. */
    record Time(String path, long low, long high) {}

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final Set<Value> values = new LinkedHashSet<>();
    private final Set<Time> times = new LinkedHashSet<>();

    private IndexRows() {}

    /** Reads a resource at everything that its type can be searched by. */
    static IndexRows of(Resource resource) {
        IndexRows rows = new IndexRows();
        rows.read(resource);
        return rows;
    }

    Set<Value> values() {
        return values;
    }

    Set<Time> times() {
        return times;
    }

    /** The values that a few resources of many are found by. */
    List<Value> selective() {
        return values.stream()
                .filter(it -> SearchSql.SELECTIVE.contains(it.path()))
                .toList();
    }

    /** The other times. */
    List<Time> further(String type) {
        Time first = first(type).orElse(null);
        return times.stream().filter(it -> !it.equals(first)).toList();
    }

    /** The time that the resource is ordered by. */
    Optional<Time> first(String type) {
        SearchParameter parameter = SearchParameters.standard().time(type);
        return parameter == null
                ? Optional.empty()
                : times.stream()
                        .filter(it -> parameter.keys().contains(it.path()))
                        .findFirst();
    }

    private void read(Resource resource) {
        SearchParameters.standard()
                .elements(resource.fhirType())
                .forEach(element -> element.path()
                        .values(fhir, resource)
                        .forEach(it -> add(element.path().key(), element.kind(), it)));
    }

    private void add(String path, SearchParameter.Kind kind, Base value) {
        switch (kind) {
            case TOKEN -> addToken(path, value);
            case REFERENCE -> addReference(path, value);
            case DATE -> addTime(path, value);
            case URI -> addValue(path, "", value.primitiveValue());
        }
    }

    private void addToken(String path, Base value) {
        if (value instanceof CodeableConcept concept) {
            concept.getCoding().forEach(it -> addValue(path, it.getSystem(), it.getCode()));
        } else if (value instanceof Coding coding) {
            addValue(path, coding.getSystem(), coding.getCode());
        } else if (value instanceof Identifier identifier) {
            addValue(path, identifier.getSystem(), identifier.getValue());
        } else if (value instanceof Enumeration<?> code) {
            addValue(path, code.getSystem(), code.getCode());
        } else if (value instanceof BooleanType truth) {
            addValue(path, "http://terminology.hl7.org/CodeSystem/special-values", truth.primitiveValue());
        } else if (value instanceof PrimitiveType<?> primitive) {
            addValue(path, "", primitive.primitiveValue());
        }
    }

    // What is named by an identifier or in words alone is no resource of ours.
    private void addReference(String path, Base value) {
        if (value instanceof Reference reference) {
            addValue(
                    path,
                    reference.getReferenceElement().getResourceType(),
                    reference.getReferenceElement().getIdPart());
        }
    }

    private void addValue(String path, @Nullable String system, @Nullable String value) {
        if (value != null && !value.isEmpty()) {
            values.add(new Value(path, system == null ? "" : system, value));
        }
    }

    private void addTime(String path, Base value) {
        if (value instanceof BaseDateTimeType time && time.getValue() != null) {
            TimeSpan span = TimeSpan.of(time);
            times.add(new Time(path, span.low(), span.high()));
        } else if (value instanceof Period period && (period.hasStart() || period.hasEnd())) {
            times.add(new Time(
                    path,
                    period.hasStart() ? TimeSpan.of(period.getStartElement()).low() : Long.MIN_VALUE,
                    period.hasEnd() ? TimeSpan.of(period.getEndElement()).high() : Long.MAX_VALUE));
        }
    }
}
