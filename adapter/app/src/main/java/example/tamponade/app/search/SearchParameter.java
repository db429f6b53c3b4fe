package example.tamponade.app.search;

import java.util.List;

/**
 * What resources of a type can be searched by.
 *
 * @param name its name in a search, for example {@code derived-from}
 * @param kind what its values are
 * @param definition address of the definition
 * @param description what it stands for
 * @param paths where in the resource it looks
 */
public record SearchParameter(String name, Kind kind, String definition, String description, List<ElementPath> paths) {

    /** What the values of a search parameter are. */
    public enum Kind {
        /** A code, an identifier or a truth value. */
        TOKEN,
        /** What the resource refers to. */
        REFERENCE,
        /** A time or a time span. */
        DATE,
        /** An address. */
        URI
    }

    /** The keys of the index that it looks at. */
    List<String> keys() {
        return paths.stream().map(ElementPath::key).distinct().toList();
    }

    /** The one type that what it refers to must be of; empty: any. */
    String target() {
        return kind == Kind.REFERENCE ? paths.get(0).kept() : "";
    }
}
