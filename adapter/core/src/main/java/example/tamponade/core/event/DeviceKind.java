package example.tamponade.core.event;

/** The kind of tamponade device. */
public enum DeviceKind implements Coded {
    /** Condom catheter assembled on site. */
    CONDOM_CATHETER,
    /** Purpose-made uterine balloon. */
    PURPOSE_MADE_BALLOON
}
