package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** How severe the haemorrhage has become, by the protocol's volumes. */
public enum HaemorrhageSeverity implements Coded {
    /** Postpartum haemorrhage. */
    HAEMORRHAGE,
    /** Severe postpartum haemorrhage. */
    SEVERE,
    /** Massive postpartum haemorrhage. */
    MASSIVE
}
