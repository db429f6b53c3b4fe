package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** Why a warning ended. */
public enum FlagEndReason implements Coded {
    /** What was read or done at the bedside shows that it holds no longer. */
    RESOLVED,
    /** Another warning says more, and takes its place. */
    SUPERSEDED,
    /** Nobody looks any more, be it that the case is closed, that she was sent on, or that the device is out. */
    NO_LONGER_OBSERVED
}
