package example.tamponade.conformance.check;

import example.tamponade.conformance.markup.Narrative;
import java.math.BigDecimal;
import java.net.URI;
import java.net.URISyntaxException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What the text of a primitive may be.
 *
 * <p>Source: FHIR R4, <a href="http://hl7.org/fhir/R4/datatypes.html">Data types</a>.
 */
final class Primitives {

    private static final int MAX_STRING = 1024 * 1024;
    private static final Pattern SCHEME = Pattern.compile("[A-Za-z][A-Za-z0-9_\\[\\]]*");
    private static final Pattern ID = Pattern.compile("[A-Za-z0-9\\-.]{1,64}");
    private static final Pattern TIME = Pattern.compile("([01]\\d|2[0-3]):[0-5]\\d:([0-5]\\d|60)(\\.\\d+)?");
    private static final Pattern DECIMAL = Pattern.compile("-?(0|[1-9]\\d*)(\\.\\d+)?([eE][+-]?\\d+)?");
    private static final Pattern INTEGER = Pattern.compile("-?(0|[1-9]\\d{0,10})");
    private static final Pattern UUID = Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");
    // Possessive: the parts of a long one are gone through in a loop, not by recursion.
    private static final Pattern OID = Pattern.compile("[0-2](\\.(0|[1-9]\\d*+))++");
    private static final Pattern BASE64 = Pattern.compile("(\\s*[0-9A-Za-z+/]){0,3}=*|[0-9A-Za-z+/=\\s]*");

    private Primitives() {}

    /** What is wrong with the text; null when nothing is. */
    static @Nullable String error(String type, String text) {
        if (text.isEmpty()) {
            return "value cannot be empty";
        }
        return switch (type) {
            case "string", "markdown" -> string(text);
            case "code" -> code(text);
            case "id" -> ID.matcher(text).matches() ? null : "id value '" + text + "' is not valid";
            case "uri", "url", "canonical", "oid", "uuid" -> uri(type, text);
            case "decimal" -> decimal(text);
            case "integer" -> integer(text, Integer.MIN_VALUE);
            case "unsignedInt" -> integer(text, 0);
            case "positiveInt" -> integer(text, 1);
            case "boolean" ->
                text.equals("true") || text.equals("false") ? null : "boolean values must be 'true' or 'false'";
            case "date" -> text.length() > "yyyy-mm-dd".length() ? "Not a valid date: '" + text + "'" : dateTime(text);
            case "dateTime" -> dateTime(text);
            case "instant" -> text.indexOf('T') < 0 ? "Not a valid instant: '" + text + "'" : dateTime(text);
            case "time" -> TIME.matcher(text).matches() ? null : "Not a valid time: '" + text + "'";
            case "xhtml" -> narrative(text);
            case "base64Binary" -> BASE64.matcher(text).matches() ? null : "The value is not valid base64";
            default -> null;
        };
    }

    private static @Nullable String narrative(String text) {
        String error = Narrative.read(text).error();
        return error == null ? null : "Error parsing XHTML: " + error;
    }

    private static @Nullable String string(String text) {
        if (text.length() > MAX_STRING) {
            return "value is longer than permitted maximum length of 1048576 (1 MB)";
        }
        return null;
    }

    /** What is odd about the text of a primitive, but no error; null when nothing is. */
    static @Nullable String oddity(String text) {
        if (text.isBlank()) {
            return "Primitive types should not only be whitespace";
        }
        if (text.charAt(0) <= ' ' || text.charAt(text.length() - 1) <= ' ') {
            return "value should not start or finish with whitespace '" + text + "'";
        }
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c < ' ' && c != '\t' && c != '\n' && c != '\r') {
                return "This content includes the character [" + (int) c
                        + "], which is illegal in the XML version of FHIR";
            }
        }
        return null;
    }

    private static @Nullable String code(String text) {
        boolean blank =
                Character.isWhitespace(text.charAt(0)) || Character.isWhitespace(text.charAt(text.length() - 1));
        for (int i = 1; !blank && i < text.length(); i++) {
            char c = text.charAt(i);
            blank = (c <= ' ' && c != ' ') || (c == ' ' && text.charAt(i - 1) == ' ');
        }
        return blank ? "The code '" + text + "' is not valid (whitespace rules)" : null;
    }

    /** Whether there is white space in a text. */
    static boolean hasBlank(String text) {
        for (int i = 0; i < text.length(); i++) {
            if (Character.isWhitespace(text.charAt(i))) {
                return true;
            }
        }
        return false;
    }

    private static @Nullable String uri(String type, String text) {
        if (hasBlank(text)) {
            return "URI values cannot have whitespace('" + text + "')";
        }
        if (type.equals("uuid") && !text.startsWith("urn:uuid:")) {
            return "UUIDs must start with urn:uuid:";
        }
        if (type.equals("oid") && !text.startsWith("urn:oid:")) {
            return "OIDs must start with urn:oid:";
        }
        if (text.startsWith("urn:uuid:")) {
            return UUID.matcher(text.substring("urn:uuid:".length())).matches()
                    ? null
                    : "UUIDs must be valid (" + text + ")";
        }
        if (text.startsWith("urn:oid:")) {
            return OID.matcher(text.substring("urn:oid:".length())).matches()
                    ? null
                    : "OIDs must be valid (" + text + ")";
        }
        return text.startsWith("oid:") || text.startsWith("uuid:")
                ? "URI values cannot start with " + text.substring(0, text.indexOf(':') + 1)
                : null;
    }

    /** Whether a text is an address that can stand by itself. */
    static boolean isAbsolute(String text) {
        if (text.startsWith("http:") || text.startsWith("https:") || text.startsWith("urn:")) {
            return true;
        }
        try {
            return new URI(text).isAbsolute();
        } catch (URISyntaxException e) {
            return false;
        }
    }

    /** Whether a text begins with a scheme, as an address does. */
    static boolean hasScheme(String text) {
        int colon = text.indexOf(':');
        return colon > 0 && SCHEME.matcher(text.substring(0, colon)).matches();
    }

    /** Whether a text can name a system of codes or identifiers. */
    static boolean isSystem(String text) {
        return text.startsWith("http:") || text.startsWith("https:") || text.startsWith("urn:");
    }

    private static @Nullable String decimal(String text) {
        return DECIMAL.matcher(text).matches() ? null : "The value '" + text + "' is not a valid decimal";
    }

    private static @Nullable String integer(String text, int least) {
        if (!INTEGER.matcher(text).matches()) {
            return "The value '" + text + "' is not a valid integer";
        }
        BigDecimal value = new BigDecimal(text);
        if (value.compareTo(BigDecimal.valueOf(Integer.MAX_VALUE)) > 0) {
            return "value is greater than permitted maximum value of " + Integer.MAX_VALUE;
        }
        return value.compareTo(BigDecimal.valueOf(least)) < 0
                ? "value is less than permitted minimum value of " + least
                : null;
    }

    private static @Nullable String dateTime(String text) {
        return hasShape(text) && isDate(text) ? null : "Not a valid date/time format: '" + text + "'";
    }

    // yyyy, yyyy-mm, yyyy-mm-dd, or that with a time to the second and an offset.
    private static boolean hasShape(String text) {
        int length = text.length();
        if (length == 4 || length == 7 || length == 10) {
            return fits(text, "0000-00-00", length);
        }
        if (length < 20 || !fits(text, "0000-00-00T00:00:00", 19)) {
            return false;
        }
        int at = 19;
        if (text.charAt(at) == '.') {
            int digits = at + 1;
            at = digits;
            while (at < length && isDigit(text.charAt(at))) {
                at++;
            }
            if (at == digits) {
                return false;
            }
        }
        String zone = text.substring(at);
        return zone.equals("Z") || (zone.length() == 6 && (fits(zone, "+00:00", 6) || fits(zone, "-00:00", 6)));
    }

    private static boolean fits(String text, String shape, int length) {
        for (int i = 0; i < length; i++) {
            char wanted = shape.charAt(i);
            if (wanted == '0' ? !isDigit(text.charAt(i)) : text.charAt(i) != wanted) {
                return false;
            }
        }
        return true;
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    private static boolean isDate(String text) {
        try {
            int year = Integer.parseInt(text.substring(0, 4));
            int month = text.length() > 4 ? Integer.parseInt(text.substring(5, 7)) : 1;
            int day = text.length() > 7 ? Integer.parseInt(text.substring(8, 10)) : 1;
            LocalDate date = LocalDate.of(year, month, day);
            return date.getYear() > 0 && (text.length() <= 10 || isTime(text));
        } catch (DateTimeException e) {
            return false;
        }
    }

    private static boolean isTime(String text) {
        int zone = Math.max(text.lastIndexOf('+'), text.lastIndexOf('-'));
        boolean offset = !text.endsWith("Z");
        int zoneHours = offset ? Integer.parseInt(text.substring(zone + 1, zone + 3)) : 0;
        int zoneMinutes = offset ? Integer.parseInt(text.substring(zone + 4, zone + 6)) : 0;
        return Integer.parseInt(text.substring(11, 13)) < 24
                && Integer.parseInt(text.substring(14, 16)) < 60
                && Integer.parseInt(text.substring(17, 19)) <= 60
                && zoneMinutes < 60
                && zoneHours * 60 + zoneMinutes <= 14 * 60;
    }
}
