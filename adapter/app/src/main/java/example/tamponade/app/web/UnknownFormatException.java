package example.tamponade.app.web;

import java.util.List;

/** Something came in a media type that no format has. */
final class UnknownFormatException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    UnknownFormatException(String mediaType, List<String> known) {
        super("no format has the media type '" + mediaType + "'; use application/json, " + String.join(", ", known));
    }
}
