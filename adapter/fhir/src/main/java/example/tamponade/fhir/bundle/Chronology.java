package example.tamponade.fhir.bundle;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** Resources in the order of what they tell of: first what has no time, as the mother, then the others by their times. */
public final class Chronology {

    // Where FHIR R4 has the time of a resource, the time that it happened before the time that it was recorded.
    private static final List<String> TIMES = List.of(
            "effective[x]",
            "performed[x]",
            "period",
            "occurred[x]",
            "onset[x]",
            "sent",
            "identified[x]",
            "timing[x]",
            "authoredOn",
            "executionPeriod",
            "recordedDate",
            "recorded");

    private static final Comparator<Timed> ORDER = Comparator.comparing(Timed::time)
            .thenComparing(it -> it.resource().fhirType())
            .thenComparing(it -> it.resource().getIdPart());

    private Chronology() {}

    private record Timed(Resource resource, Instant time) {}

    /** The resources in order; those of one time by type and id. */
    public static List<Resource> sorted(List<Resource> resources) {
        return resources.stream()
                .map(it -> new Timed(it, time(it)))
                .sorted(ORDER)
                .map(Timed::resource)
                .toList();
    }

    /** When it happened; the earliest time there is for what has no time. */
    static Instant time(Resource resource) {
        return TIMES.stream()
                .map(resource::getNamedProperty)
                .filter(Objects::nonNull)
                .map(Chronology::instant)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse(Instant.MIN);
    }

    private static @Nullable Instant instant(Property property) {
        return property.getValues().stream()
                .flatMap(it -> it instanceof Period period
                        ? Stream.of(period.getStartElement(), period.getEndElement())
                        : Stream.of(it))
                .filter(BaseDateTimeType.class::isInstance)
                .map(it -> ((BaseDateTimeType) it).getValue())
                .filter(Objects::nonNull)
                .map(it -> it.toInstant())
                .findFirst()
                .orElse(null);
    }
}
