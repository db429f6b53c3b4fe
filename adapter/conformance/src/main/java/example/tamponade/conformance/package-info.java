/** Holds FHIR R4 resources to the profiles of a package, compiled once into a checker that walks a resource once. */
@NullMarked
package example.tamponade.conformance;

import org.jspecify.annotations.NullMarked;
