package example.tamponade.app.cards;

import java.util.List;
import java.util.UUID;

/**
 * A card: <a href="https://cds-hooks.hl7.org/2.0/#card-attributes">CDS Hooks 2.0, Card Attributes</a>.
 *
 * @param uuid its id, the same for the same warning
 * @param summary what it says, in fewer than 140 characters
 * @param indicator how urgent it is: {@code info}, {@code warning} or {@code critical}
 * @param detail more of it, in Markdown
 * @param source whose rule it is
 * @param links where there is more
 */
public record Card(UUID uuid, String summary, String indicator, String detail, Source source, List<Link> links) {

    /** The most characters that a summary has. */
    static final int LONGEST_SUMMARY = 139;

    /**
     * Whose rule it is.
     *
     * @param label its name
     */
    public record Source(String label) {}

    /**
     * Where there is more.
     *
     * @param label what is there
     * @param url its address
     * @param type {@code absolute}: the address as it is
     */
    public record Link(String label, String url, String type) {}
}
