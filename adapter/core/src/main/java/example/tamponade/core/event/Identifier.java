package example.tamponade.core.event;

/**
 * A number that names the mother in some register.
 *
 * @param system the register's URI, for example {@code urn:register:ward}
 * @param value the number in that register
 */
public record Identifier(String system, String value) {}
