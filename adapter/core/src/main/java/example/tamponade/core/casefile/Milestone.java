package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** The times that an audit measures between; each is the first of its kind in a case. */
enum Milestone implements Coded {
    OPENED,
    BIRTH,
    RECOGNISED,
    FIRST_MEDICINE,
    ANTIFIBRINOLYTIC,
    FIRST_RESPONSE_COMPLETE,
    INSERTED,
    CONTROLLED,
    REFERRAL_DECIDED,
    DEPARTED,
    ARRIVED,
    HANDED_OVER
}
