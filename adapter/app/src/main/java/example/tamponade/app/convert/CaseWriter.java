package example.tamponade.app.convert;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.keys.BundleSignatures;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.projection.CaseProjection;
import example.tamponade.app.record.MemoryRecord;
import example.tamponade.app.record.SetAside;
import example.tamponade.app.records.NonconformingException;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.bundle.CaseView;
import example.tamponade.fhir.bundle.Chronology;
import example.tamponade.fhir.bundle.DocumentPage;
import example.tamponade.fhir.bundle.DocumentPdf;
import example.tamponade.fhir.bundle.UnprintableException;
import example.tamponade.fhir.pseudonym.PseudonymisedCase;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Resource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Puts a case through the projection and writes what comes out. Nothing is written that fails its profiles. */
final class CaseWriter {

    private static final Logger LOG = LoggerFactory.getLogger(CaseWriter.class);

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final RecordParts parts;
    private final CaseProjection projection;
    private final CareProtocol protocol;
    private final Path out;
    private final OutputShape shape;
    private final RefusedFile refusals;
    private final AtomicLong resources = new AtomicLong();

    /** Writes cases in that shape below that folder. */
    CaseWriter(RecordParts parts, CareProtocol protocol, Path out, OutputShape shape, RefusedFile refusals) {
        this.parts = parts;
        this.projection = new CaseProjection(parts);
        this.refusals = refusals;
        this.protocol = protocol;
        this.out = out;
        this.shape = shape;
    }

    long resources() {
        return resources.get();
    }

    void write(String caseKey, List<Intake.Taken> taken) throws IOException {
        MemoryRecord record = new MemoryRecord();
        CaseFile file = projection.whole(caseKey, entries(taken), protocol, record);
        for (SetAside event : record.setAside(caseKey)) {
            refusals.add(taken.get((int) event.seq() - 1).payload(), Intake.Refused.notOnRecord("see the log"));
        }
        // No id has a low line in it, so no two keys give one name.
        String name = caseKey.replace('/', '_');
        CaseView view = CaseKey.caseId(caseKey) == null ? CaseView.FULL : shape.view();
        List<Resource> made = Chronology.sorted(withWithdrawn(caseKey, name, view, record.ofCase(caseKey)));
        if (made.isEmpty()) {
            LOG.warn("{}: nothing to write, its events withdraw others that have not come", caseKey);
            return;
        }
        resources.addAndGet(made.size());
        if (shape.pseudonymiser() != null) {
            writePseudonymised(shape.pseudonymiser(), file, caseKey, view, record.ofCase(caseKey));
            return;
        }
        if (shape.form() == OutputForm.NDJSON) {
            writeLines(name, made);
        } else {
            boolean document = shape.form().isOfDocument() && CaseKey.caseId(caseKey) != null;
            write(
                    name,
                    document
                            ? parts.bundles().document(file, view, made)
                            : parts.bundles().transaction(file, made));
        }
    }

    private void writePseudonymised(
            Pseudonymiser pseudonymiser, CaseFile file, String caseKey, CaseView view, List<Resource> onRecord)
            throws IOException {
        PseudonymisedCase others = pseudonymiser.of(caseKey, onRecord);
        List<Resource> made = others.of(Chronology.sorted(parts.bundles().view(view, onRecord)));
        // The key of a case is whose it is.
        String name = others.id(caseKey);
        if (shape.form() == OutputForm.NDJSON) {
            writeLines(name, made);
        } else if (shape.form().isOfDocument() && CaseKey.caseId(caseKey) != null) {
            write(name, parts.bundles().pseudonymised(file, view, onRecord, pseudonymiser));
        } else {
            write(name, parts.bundles().puts(made, Map.of()));
        }
    }

    static String fileName(String name, Bundle.BundleType type) {
        return name + "." + type.toCode() + ".json";
    }

    // What an earlier conversion wrote and this one does not is entered in error, and stays so.
    private List<Resource> withWithdrawn(String caseKey, String name, CaseView view, List<Resource> made)
            throws IOException {
        List<Resource> shown = parts.bundles().view(view, made);
        FormerOutput former = shape.former();
        if (former == null) {
            return shown;
        }
        // Against all that holds: what a view leaves out now is not withdrawn.
        Set<String> addresses = made.stream().map(CaseWriter::address).collect(Collectors.toSet());
        List<Resource> withdrawn = former.resources(name).stream()
                .filter(it -> !addresses.contains(address(it)))
                .map(parts.mapper()::enteredInError)
                .toList();
        NonconformingException.throwUnlessPassed(caseKey, parts.conformance().check(withdrawn));
        return Stream.concat(shown.stream(), withdrawn.stream()).toList();
    }

    private static String address(Resource resource) {
        return resource.fhirType() + "/" + resource.getIdPart();
    }

    private static List<Ledger.Entry> entries(List<Intake.Taken> taken) {
        List<Ledger.Entry> entries = new ArrayList<>();
        for (Intake.Taken one : taken) {
            entries.add(new Ledger.Entry(entries.size() + 1L, one.event(), one.digest()));
        }
        return entries;
    }

    // A facility has no document, and so no page.
    private void write(String name, Bundle whole) throws IOException {
        if (shape.form() == OutputForm.PAGE && whole.getType() == Bundle.BundleType.DOCUMENT) {
            Files.writeString(out.resolve(name + ".html"), DocumentPage.of(whole));
            return;
        }
        if (shape.form() == OutputForm.PDF && whole.getType() == Bundle.BundleType.DOCUMENT) {
            writePdf(name, whole);
            return;
        }
        Path file = out.resolve(fileName(name, whole.getType()));
        try (Writer writer = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
            fhir.newJsonParser().encodeResourceToWriter(whole, writer);
            writer.write('\n');
        }
        if (shape.keys() != null) {
            BundleSignatures.sign(file, shape.keys());
        }
    }

    // What cannot be printed so is there as a page all the same.
    private void writePdf(String name, Bundle document) throws IOException {
        try {
            Files.write(out.resolve(name + ".pdf"), DocumentPdf.of(document));
        } catch (UnprintableException e) {
            LOG.warn("{}.html is written instead of a PDF: {}", name, e.getMessage());
            Files.writeString(out.resolve(name + ".html"), DocumentPage.of(document));
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
}
