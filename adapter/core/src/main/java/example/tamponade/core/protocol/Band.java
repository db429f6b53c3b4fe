package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;

/** How a derived value stands to the protocol's bands. */
public enum Band implements Coded {
    /** Within what the protocol expects. */
    NORMAL,
    /** Raised: look again soon. */
    RAISED,
    /** High: worse than raised, below the top band. */
    HIGH,
    /** In the top band: act by the local protocol. */
    CRITICAL
}
