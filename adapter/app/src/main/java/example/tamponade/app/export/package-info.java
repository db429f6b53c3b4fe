/**
 * Exports what is on record, much at once: FHIR Bulk Data Access.
 */
@NullMarked
package example.tamponade.app.export;

import org.jspecify.annotations.NullMarked;
