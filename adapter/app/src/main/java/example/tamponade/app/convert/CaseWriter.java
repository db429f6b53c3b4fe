package example.tamponade.app.convert;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.records.NonconformingException;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.mapping.PayloadDigests;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Resource;

/** Folds a case, maps it, checks it and writes it. Nothing is written that fails its profiles. */
final class CaseWriter {

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final RecordParts parts = RecordParts.shared();
    private final CareProtocol protocol;
    private final Path out;
    private final OutputForm form;
    private long resources;

    CaseWriter(CareProtocol protocol, Path out, OutputForm form) {
        this.protocol = protocol;
        this.out = out;
        this.form = form;
    }

    long resources() {
        return resources;
    }

    void write(String caseKey, List<Intake.Taken> taken) throws IOException {
        PayloadDigests digests = digests(taken);
        List<EventEnvelope> events = taken.stream().map(Intake.Taken::event).toList();
        String name = caseKey.replace('/', '-');
        String caseId = events.get(0).caseId();
        if (caseId == null) {
            String facilityId = events.get(0).facilityId();
            List<Resource> made = parts.mapper().facility(facilityId, events, protocol, digests);
            write(name, check(caseKey, made), () -> parts.bundles().transaction(made));
        } else {
            CaseFile file = asOfItsEnd(CaseFile.of(caseId, protocol, events));
            List<Resource> made = RecordParts.distinct(
                    parts.mapper().resources(file, digests), parts.mapper().ofReplaced(file, events, digests));
            write(name, check(caseKey, made), () -> bundle(file, made, digests));
        }
    }

    // Time is let pass up to the latest event and no further: the output depends on the input alone.
    private static CaseFile asOfItsEnd(CaseFile file) {
        return file.entries().stream()
                .map(it -> it.event().occurredAt())
                .max(Comparator.comparing(OffsetDateTime::toInstant))
                .map(it -> file.advanceTo(it).after())
                .orElse(file);
    }

    private List<Resource> check(String caseKey, List<Resource> made) {
        NonconformingException.throwUnlessPassed(caseKey, parts.conformance().check(made));
        resources += made.size();
        return made;
    }

    private Bundle bundle(CaseFile file, List<Resource> made, PayloadDigests digests) {
        return form == OutputForm.DOCUMENT
                ? parts.bundles().document(file, digests)
                : parts.bundles().transaction(made);
    }

    private void write(String name, List<Resource> made, Supplier<Bundle> bundle) throws IOException {
        if (form == OutputForm.NDJSON) {
            writeLines(name, made);
            return;
        }
        Bundle whole = bundle.get();
        Path file = out.resolve(name + "." + whole.getType().toCode() + ".json");
        try (Writer writer = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
            fhir.newJsonParser().setPrettyPrint(true).encodeResourceToWriter(whole, writer);
            writer.write('\n');
        }
    }

    private void writeLines(String name, List<Resource> made) throws IOException {
        Path folder = Files.createDirectories(out.resolve(name));
        Map<String, List<Resource>> byType =
                made.stream().collect(Collectors.groupingBy(Resource::fhirType, TreeMap::new, Collectors.toList()));
        for (Map.Entry<String, List<Resource>> type : byType.entrySet()) {
            Path file = folder.resolve(type.getKey() + ".ndjson");
            try (BufferedWriter writer = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
                for (Resource resource : type.getValue()) {
                    writer.write(fhir.newJsonParser().encodeResourceToString(resource));
                    writer.write('\n');
                }
            }
        }
    }

    private static PayloadDigests digests(List<Intake.Taken> taken) {
        Map<UUID, Intake.Taken> byId =
                taken.stream().collect(Collectors.toMap(it -> it.event().eventId(), Function.identity()));
        return eventId -> {
            Intake.Taken one = byId.get(eventId);
            if (one == null) {
                throw new IllegalArgumentException("no event " + eventId + " in this case");
            }
            return one.digest();
        };
    }
}
