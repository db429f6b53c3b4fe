package example.tamponade.app.access;

import java.util.Locale;

/** What somebody may do here. */
public enum Role {
    /** Sends events and messages. */
    SENDER,
    /** Reads the record, as far as SMART scopes allow. */
    READER,
    /** Reads cases and exports in the pseudonymised form alone. */
    AUDITOR,
    /** Looks after the adapter: refused inputs, deliveries, the access log. */
    OPERATOR;

    /** The scope by which a token gives it; READER has none of its own, SMART's scopes give it. */
    public String scope() {
        return "role/" + name().toLowerCase(Locale.ROOT);
    }

    /** The authority that Spring Security knows it by. */
    public String authority() {
        return "ROLE_" + name();
    }
}
