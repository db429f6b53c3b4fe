package example.tamponade.core.event;

/** How blood loss was measured or estimated. */
public enum LossMethod implements Coded {
    /** Pads or linen weighed wet and dry. */
    WEIGHED,
    /** Read from a calibrated drape. */
    GRADUATED_DRAPE,
    /** Read from a suction canister. */
    SUCTION,
    /** Estimated by eye. */
    VISUAL
}
