package example.tamponade.fhir.site;

import java.util.List;

/** An adaptation file or a site's package that cannot be used; the message lists every problem with its place. */
public final class UnusableAdaptationException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    UnusableAdaptationException(String file, List<String> problems) {
        super(file + " cannot be used:\n  " + String.join("\n  ", problems));
    }
}
