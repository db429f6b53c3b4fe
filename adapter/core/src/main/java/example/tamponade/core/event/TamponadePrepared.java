package example.tamponade.core.event;

/**
 * The device was made ready.
 *
 * @param assembled assembled
 * @param leakTested filled once outside and found tight
 * @param antiseptic vulva and vagina cleaned with antiseptic
 * @param glovesSterile sterile gloves worn
 * @param by by whom
 */
public record TamponadePrepared(
        boolean assembled, boolean leakTested, boolean antiseptic, boolean glovesSterile, StaffRole by)
        implements BedsideEvent {}
