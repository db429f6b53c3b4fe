/**
 * Response: reads answers to the published form for bedside events. Comes in: FHIR R4 QuestionnaireResponses. Goes out: one
 * event for each {@code event} group, stated property by property, or every reason against it by the link of the item. It
 * judges no value.
 */
@NullMarked
package example.tamponade.app.response;

import org.jspecify.annotations.NullMarked;
