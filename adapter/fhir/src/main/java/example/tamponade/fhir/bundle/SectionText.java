package example.tamponade.fhir.bundle;

import example.tamponade.fhir.terms.Narratives;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Narrative;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.utilities.xhtml.XhtmlNode;

/** What a person reads in a section: warnings, then tables by time. The full list stays in the entries. */
final class SectionText {

    private static final List<String> SEVERITIES = List.of("high", "moderate", "low");
    private static final int LONGEST = 300;

    // Warnings, readings and who recorded have their own place; the volumes tell of each step of the balloon.
    private static final Set<String> TOLD_ELSEWHERE =
            Set.of("Flag", "Observation", "Provenance", "Practitioner", "Organization");
    private static final String BALLOON_STEP = "balloon-step";

    private final Set<Instant> changes;
    private final RowTimes times;

    SectionText(Set<Instant> changes, RowTimes times) {
        this.changes = changes;
        this.times = times;
    }

    Narrative of(List<Resource> resources) {
        List<Resource> standing =
                resources.stream().filter(it -> !Profiles.isEnteredInError(it)).toList();
        List<XhtmlNode> parts = new ArrayList<>();
        List<Flag> flags = only(Flag.class, standing);
        if (!flags.isEmpty()) {
            parts.add(warnings(flags));
        }
        List<Observation> readings = only(Observation.class, standing);
        if (!readings.isEmpty()) {
            parts.addAll(new ReadingTable(readings, changes, times).parts());
        }
        addEvents(parts, standing);
        addProvenance(parts, standing);
        if (standing.size() < resources.size()) {
            parts.add(Narratives.paragraph(
                    (resources.size() - standing.size()) + " entries of the section were entered in error."));
        }
        return Narratives.ofParts(parts);
    }

    private static <T extends Resource> List<T> only(Class<T> type, List<Resource> resources) {
        return resources.stream().filter(type::isInstance).map(type::cast).toList();
    }

    // What stands comes first, the gravest first.
    private XhtmlNode warnings(List<Flag> flags) {
        Comparator<Flag> order = Comparator.comparing(
                        (Flag it) -> it.getPeriod().hasEnd())
                .thenComparing(it -> SEVERITIES.indexOf(severity(it)))
                .thenComparing(Chronology::time);
        RowTimes ofTable = times.ofTable();
        return Narratives.table(
                List.of("Since", "Until", "Severity", "Warning"),
                flags.stream().sorted(order).map(it -> warning(it, ofTable)).toList());
    }

    private List<String> warning(Flag flag, RowTimes ofTable) {
        String since = ofTable.next(Chronology.time(flag));
        Period period = flag.getPeriod();
        String until = period.hasEnd() ? ofTable.next(period.getEnd().toInstant()) : "stands";
        return List.of(since, until, severity(flag), flag.getCode().getText());
    }

    private static String severity(Flag flag) {
        return flag.getExtension().stream()
                .map(it -> it.getValue())
                .filter(CodeType.class::isInstance)
                .map(it -> it.primitiveValue())
                .filter(SEVERITIES::contains)
                .findFirst()
                .orElse("");
    }

    private void addEvents(List<XhtmlNode> parts, List<Resource> resources) {
        List<List<String>> rows = new ArrayList<>();
        List<String> timeless = new ArrayList<>();
        RowTimes ofTable = times.ofTable();
        for (Resource event : resources) {
            if (TOLD_ELSEWHERE.contains(event.fhirType()) || Profiles.of(event).equals(BALLOON_STEP)) {
                continue;
            }
            Instant time = Chronology.time(event);
            String line = line(event);
            if (time.equals(Instant.MIN)) {
                timeless.add(line);
            } else {
                rows.add(List.of(ofTable.next(time), line));
            }
        }
        if (!timeless.isEmpty()) {
            parts.add(Narratives.paragraph(String.join(" ", timeless)));
        }
        if (!rows.isEmpty()) {
            parts.add(Narratives.table(List.of("Time", "What"), rows));
        }
    }

    private static String line(Resource event) {
        String line = Narratives.lines(((DomainResource) event).getText()).get(0);
        String ended = line.endsWith(".") ? line : line + ".";
        return ended.length() <= LONGEST ? ended : ended.substring(0, LONGEST) + "… (the whole is in the entry)";
    }

    private static void addProvenance(List<XhtmlNode> parts, List<Resource> resources) {
        int provenances = only(Provenance.class, resources).size();
        if (provenances > 0) {
            parts.add(Narratives.paragraph(
                    provenances + " entries tell who recorded what, and what each value was derived from."));
        }
    }
}
