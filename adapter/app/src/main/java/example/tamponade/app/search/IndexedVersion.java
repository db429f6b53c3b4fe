package example.tamponade.app.search;

import org.hl7.fhir.r4.model.Resource;

/**
 * A version that is the current one from now on.
 *
 * @param type the resource's type
 * @param id its logical id
 * @param version its number
 * @param storedAt when it went on record, as the database writes it; empty when nobody knows
 * @param resource what it says
 */
public record IndexedVersion(String type, String id, int version, String storedAt, Resource resource) {}
