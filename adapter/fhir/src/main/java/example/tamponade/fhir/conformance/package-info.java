/**
 * The last gate before anyone sees a resource: is it what its profile says? Resources or their JSON come in, a report of
 * problems with their places goes out. It knows the published package and FHIR R4 itself, asks no network and repairs
 * nothing.
 */
@NullMarked
package example.tamponade.fhir.conformance;

import org.jspecify.annotations.NullMarked;
