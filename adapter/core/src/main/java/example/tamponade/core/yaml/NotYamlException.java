package example.tamponade.core.yaml;

/** A file that is not YAML; the message says what is wrong. */
public final class NotYamlException extends Exception {

    private static final long serialVersionUID = 1L;

    NotYamlException(int line, String problem) {
        super("line " + line + ": not YAML: " + problem);
    }
}
