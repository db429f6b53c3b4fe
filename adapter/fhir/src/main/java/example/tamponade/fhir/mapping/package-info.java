/**
 * From a folded case to FHIR R4: each event and each derived fact becomes resources with ids that are the same on every
 * replay. What comes in is a case file; what goes out are resources that name their profile, their event and what a
 * clinician would read. It reads no clock, stores nothing and decides nothing clinical.
 */
@NullMarked
package example.tamponade.fhir.mapping;

import org.jspecify.annotations.NullMarked;
