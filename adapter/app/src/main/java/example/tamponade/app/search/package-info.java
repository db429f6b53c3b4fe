/**
 * Finds what is on record: an index kept with it, by the search parameters of FHIR R4 and our own.
 */
@NullMarked
package example.tamponade.app.search;

import org.jspecify.annotations.NullMarked;
