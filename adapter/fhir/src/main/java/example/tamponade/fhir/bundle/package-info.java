/**
 * A whole case in one bundle: as a document that can be read from top to bottom without any software that knows our
 * profiles, or as a transaction that a FHIR server can take in. Resources of one case come in; nothing is added but the
 * frame. It stores and sends nothing.
 */
@NullMarked
package example.tamponade.fhir.bundle;

import org.jspecify.annotations.NullMarked;
