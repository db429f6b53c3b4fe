/**
 * Converts files of events: reads each line, folds each case and writes its FHIR resources. Refused lines are written apart
 * with their reasons; the same input gives byte-identical output.
 */
@NullMarked
package example.tamponade.app.convert;

import org.jspecify.annotations.NullMarked;
