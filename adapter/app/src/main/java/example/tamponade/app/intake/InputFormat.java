package example.tamponade.app.intake;

import example.tamponade.core.event.Coded;

/** In which format something was handed in. */
public enum InputFormat implements Coded {
    /** Bedside events in JSON: one object, or one a line. */
    EVENT,
    /** A register as CSV, one reading a row. */
    REGISTER,
    /** An HL7 version 2 message. */
    MESSAGE,
    /** A FHIR QuestionnaireResponse. */
    RESPONSE,
    /** A FHIR Observation, or a Bundle of them. */
    OBSERVATION
}
