package example.tamponade.app.subscription;

/** A subscription that cannot be kept; the message names the element and the remedy. */
public final class SubscriptionRefusedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    SubscriptionRefusedException(String element, String problem) {
        super("Subscription." + element + ": " + problem);
    }
}
