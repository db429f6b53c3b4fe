/**
 * Code systems, value sets and concept maps. Source files without repeated lines come in; complete FHIR R4 resources go
 * out, on the class path under {@code example/tamponade/terminology/<type>/<id>.json}. Nothing here knows the events or
 * computes anything clinical.
 */
@NullMarked
package example.tamponade.terminology;

import org.jspecify.annotations.NullMarked;
