package example.tamponade.fhir.mapping;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.impl.NameBasedGenerator;
import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.Recorder;
import java.util.UUID;

/**
 * Names resources: UUID version 5 of the project's namespace and what the resource is about, so that replay and
 * redelivery give the same id. The namespace is version 5 of the URL namespace and the canonical base.
 */
final class Ids {

    private final NameBasedGenerator names;

    Ids(String base) {
        UUID namespace =
                Generators.nameBasedGenerator(NameBasedGenerator.NAMESPACE_URL).generate(base);
        this.names = Generators.nameBasedGenerator(namespace);
    }

    /**
     * The id of a resource of an event.
     *
     * @param event the id that the event was first recorded under
     * @param role which of its resources, for example {@code blood-pressure}
     */
    String of(UUID event, String role) {
        return of(event + "/" + role);
    }

    /** The id of a fact. */
    String of(FactKey key) {
        return of(key.anchor(), key.part().isEmpty() ? key.code() : key.code() + "/" + key.part());
    }

    /** The id of what there is once in a case, for example its {@code mother}. */
    String ofCase(CaseId caseId, String role) {
        return of("case/" + caseId + "/" + role);
    }

    /** The id of what is named by its content alone. */
    String ofContent(String digest) {
        return of("content/" + digest);
    }

    String ofFacility(String facilityId) {
        return of("facility/" + facilityId);
    }

    String ofOrganization(String facilityId) {
        return of("organization/" + facilityId);
    }

    /** A person is known by the number that a facility gave. */
    String ofPractitioner(String facilityId, Recorder recorder) {
        return of("practitioner/" + facilityId + "/" + recorder.id());
    }

    /** One person in two roles, or at two facilities, is two recorders. */
    String ofRecorder(String facilityId, Recorder recorder) {
        return of("recorder/" + facilityId + "/" + recorder.role().code() + "/" + recorder.id());
    }

    String ofSoftware(String version) {
        return of("software/" + version);
    }

    private String of(String name) {
        return names.generate(name).toString();
    }
}
