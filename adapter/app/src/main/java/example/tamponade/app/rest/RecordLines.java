package example.tamponade.app.rest;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.export.ExportLines;
import example.tamponade.app.search.FoundVersion;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** Resources as an export has them: as the API answers them, or pseudonymised. */
public final class RecordLines implements ExportLines {

    private final @Nullable Pseudonymiser pseudonymiser;

    /**
     * Writes them.
     *
     * @param pseudonymiser makes the pseudonymised form; null: there is none
     */
    public RecordLines(@Nullable Pseudonymiser pseudonymiser) {
        this.pseudonymiser = pseudonymiser;
    }

    @Override
    public List<String> of(List<FoundVersion> versions) {
        return versions.stream().map(it -> line(Content.resource(it))).toList();
    }

    // Without versions and the times when they went on record: those are of no case's own days.
    @Override
    public List<String> pseudonymised(String caseKey, List<FoundVersion> ofCase, List<FoundVersion> asked) {
        List<Resource> all = ofCase.stream().map(RecordLines::plain).toList();
        return Objects.requireNonNull(pseudonymiser)
                .of(caseKey, all)
                .of(asked.stream().map(RecordLines::plain).toList())
                .stream()
                .map(RecordLines::line)
                .toList();
    }

    private static Resource plain(FoundVersion version) {
        Resource resource = Content.resource(version);
        resource.setId(version.id());
        resource.getMeta().setVersionIdElement(null).setLastUpdatedElement(null);
        return resource;
    }

    private static String line(Resource resource) {
        return FhirContext.forR4Cached().newJsonParser().encodeResourceToString(resource);
    }
}
