package example.tamponade.core.event;

/** What made the haemorrhage be recognised. */
public enum RecognitionCriterion implements Coded {
    /** The measured or estimated blood loss. */
    VOLUME,
    /** Abnormal vital signs. */
    SIGNS,
    /** The judgement of those at the bedside. */
    JUDGEMENT
}
