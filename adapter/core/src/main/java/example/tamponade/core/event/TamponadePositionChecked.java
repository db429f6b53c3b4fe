package example.tamponade.core.event;

/**
 * The position of the device was checked.
 *
 * @param position where it lies
 * @param how how it was checked
 * @param secured whether it is fixed outside
 */
public record TamponadePositionChecked(BalloonPosition position, Guidance how, boolean secured)
        implements BedsideEvent {}
