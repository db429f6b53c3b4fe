package example.tamponade.core.event;

/** What a chamber is filled with. */
public enum FillFluid implements Coded {
    /** Sterile saline. */
    SALINE,
    /** Sterile water. */
    STERILE_WATER,
    /** Clean water. */
    CLEAN_WATER
}
