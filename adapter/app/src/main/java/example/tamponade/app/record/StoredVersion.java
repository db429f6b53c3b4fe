package example.tamponade.app.record;

import example.tamponade.app.outbox.DueResource;
import example.tamponade.app.search.IndexedVersion;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/**
 * A version of a resource that is on record.
 *
 * @param type the resource's type
 * @param id its logical id
 * @param number 1 for the first version
 * @param content the resource as JSON
 */
public record StoredVersion(String type, String id, int number, String content) {

    static StoredVersion after(@Nullable StoredVersion latest, NewVersion version) {
        int slash = version.name().indexOf('/');
        return new StoredVersion(
                version.name().substring(0, slash),
                version.name().substring(slash + 1),
                latest == null ? 1 : latest.number() + 1,
                version.json());
    }

    IndexedVersion indexed(String storedAt, Resource resource) {
        return new IndexedVersion(type, id, number, storedAt, resource);
    }

    DueResource due() {
        return new DueResource(type, id, number);
    }
}
