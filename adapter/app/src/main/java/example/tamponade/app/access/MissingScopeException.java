package example.tamponade.app.access;

import ca.uhn.fhir.rest.server.exceptions.ForbiddenOperationException;

/** Somebody asks for what none of his scopes allows. */
public final class MissingScopeException extends ForbiddenOperationException {

    private static final long serialVersionUID = 1L;

    MissingScopeException(String scope) {
        super("this takes the scope " + scope
                + " (SMART App Launch 2), or the same of user/ or patient/; ask whoever gives you"
                + " your tokens for it");
    }
}
