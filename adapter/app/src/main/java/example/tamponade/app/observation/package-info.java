/**
 * Observation: reads FHIR R4 Observations as events. Comes in: one Observation, one a line, or a Bundle. Goes out: an event
 * for each, or for several of one source that together are one; else every reason against it by the element it stands in.
 * What this adapter publishes as observed is read back; what it derives is not taken. It judges no value.
 */
@NullMarked
package example.tamponade.app.observation;

import org.jspecify.annotations.NullMarked;
