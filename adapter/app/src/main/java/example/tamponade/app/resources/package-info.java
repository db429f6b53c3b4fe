/**
 * Resources: cuts FHIR JSON of any length into its resources, in constant memory, and reads each strictly as R4. Comes in:
 * one resource, resources one a line, or a Bundle. What is no JSON or no R4 comes out as reasons with their places, never
 * as an exception.
 */
@NullMarked
package example.tamponade.app.resources;

import org.jspecify.annotations.NullMarked;
