/**
 * Serves the record by FHIR's RESTful API.
 */
@NullMarked
package example.tamponade.app.rest;

import org.jspecify.annotations.NullMarked;
