package example.tamponade.core.event;

/** Who records or who is called. */
public enum StaffRole implements Coded {
    /** A trained birth attendant. */
    BIRTH_ATTENDANT,
    /** A midwife. */
    MIDWIFE,
    /** A nurse. */
    NURSE,
    /** A clinical officer or associate clinician. */
    CLINICAL_OFFICER,
    /** A doctor. */
    DOCTOR,
    /** An obstetrician. */
    OBSTETRICIAN,
    /** A provider of anaesthesia. */
    ANAESTHETIST,
    /** A student under supervision. */
    STUDENT,
    /** A clerk who keys in a paper record. */
    CLERK,
    /** A bedside monitor. */
    MONITOR
}
