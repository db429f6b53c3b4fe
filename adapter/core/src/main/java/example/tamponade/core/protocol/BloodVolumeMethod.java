package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;

/** By which formula the blood volume is estimated. */
public enum BloodVolumeMethod implements Coded {
    /** Body weight times a volume for each kilogram of a pregnant woman. */
    WEIGHT,
    /** Height and weight, formula for women who are not pregnant; weight alone where the height is not known. */
    HEIGHT_WEIGHT
}
