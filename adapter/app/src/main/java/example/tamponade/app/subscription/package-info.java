/** Subscriptions: who is told of resources that fulfil a search (HL7 FHIR R4, Subscription). */
@NullMarked
package example.tamponade.app.subscription;

import org.jspecify.annotations.NullMarked;
