import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;

/**
 * Works out what the samples must give, apart from the adapter: it shares no class with it, needs nothing but a JDK, and
 * its arithmetic is exact; each figure is rounded once, half up, when it is written. The rules are those that samples/README.md
 * and the profiles state. Run with {@code java samples/ExpectedResults.java samples/events/settled.jsonl}.
 */
public final class ExpectedResults {

    // Shortest form of the vocabulary: type, then property:kind; ! marks what must be there. Kinds: n number or amount with
    // unit, t text, b truth, d time, l list, o object, and codes between | where the program needs their list.
    private static final String VOCABULARY = """
            readiness-checked !tamponadeSet:o uterotonicsInDate:b bloodReachable:b transportReachable:b theatreReachableMinutes:n
            case-opened !mother:o encounterStart:d consent:t
            birth !at:d !mode:t !babies:l !placentaDelivered:t
            haemorrhage-recognised !criteria:l suspectedCause:l
            help-called !who:l
            manoeuvre !kind:t !start:d end:d
            medicine-given !substance:t !dose:n !unit:t !route:t name:t
            infusion !line:n !bag:n !substance:t name:t dose:n unit:t !bagVolumeMl:n !rateMlPerHour:n
            blood-product-given !product:t !units:n !volumeMl:n
            blood-loss !method:t !reading:t collector:t volumeMl:n otherFluidMl:n wetG:n dryG:n emptied:b
            vital-signs pulse:n systolic:n diastolic:n respirations:n oxygenSaturation:n temperatureC:n consciousness:t pressureUnrecordable:b
            uterus-checked !tone:firm|soft|alternating fundusCm:n
            bleeding-checked !amount:none|light|moderate|heavy otherSource:b
            symptoms-checked agitatedOrConfused:b unremittingHeadache:b breathless:b
            urine !volumeMl:n !from:d !to:d
            laboratory !analyte:t !value:n !unit:t
            tamponade-prepared !assembled:b !leakTested:b !antiseptic:b !glovesSterile:b !by:t
            tamponade-inserted !device:o guidedBy:t !positionConfirmed:b
            balloon-filled !chamber:t !volumeMl:n !fluid:t
            balloon-drained !chamber:t !volumeMl:n fluid:t
            tamponade-position-checked !position:t how:t secured:b
            tamponade-removed !reason:t
            referral !step:t !to:t reason:t !balloonInPlace:b transport:t
            outcome !mother:t !closesCase:b
            note !text:t
            """;
    // UCUM, table of units: one US fluid ounce is 29.5735295625 mL.
    private static final Map<String, String> MILLILITRES =
            Map.of("mL", "1", "cL", "10", "dL", "100", "L", "1000", "[foz_us]", "29.5735295625");
    private static final Map<String, String> GRAMS = Map.of("g", "1", "kg", "1000");
    private static final Duration PAIRED_WITHIN = Duration.ofMinutes(5);
    private static final Duration CLOCKS_DIFFER_BY = Duration.ofMinutes(10);

    private final Map<String, Map<String, String>> vocabulary = new HashMap<>();
    private final Map<String, Object> sent = new LinkedHashMap<>();
    private final List<String> refused = new ArrayList<>();
    private int lines;
    private int unchanged;

    private ExpectedResults() {
        for (String row : VOCABULARY.strip().split("\n")) {
            String[] cells = row.strip().split(" ");
            Map<String, String> properties = new LinkedHashMap<>();
            for (int i = 1; i < cells.length; i++) {
                properties.put(cells[i].substring(0, cells[i].indexOf(':')), cells[i].substring(cells[i].indexOf(':') + 1));
            }
            vocabulary.put(cells[0], properties);
        }
    }

    /** Prints the expected results of a file of events. */
    public static void main(String[] arguments) throws IOException {
        ExpectedResults results = new ExpectedResults();
        results.read(Files.readString(Path.of(arguments[0]), StandardCharsets.UTF_8));
        System.out.write(results.written().getBytes(StandardCharsets.UTF_8));
        System.out.flush();
    }

    // ---- reading and refusing

    private void read(String text) {
        Map<String, String> byId = new HashMap<>();
        for (String line : text.split("\n")) {
            if (line.isBlank()) {
                continue;
            }
            lines++;
            String reason = reason(line);
            if (reason != null) {
                refused.add("{\"line\": " + lines + ", \"reason\": \"" + reason + "\"}");
                continue;
            }
            String id = (String) Objects.requireNonNull(((Map<?, ?>) Json.parse(line)).get("eventId"));
            if (byId.putIfAbsent(id, line) == null) {
                sent.put(id, Json.parse(line));
            } else {
                unchanged++;
            }
        }
    }

    private String reason(String line) {
        Object parsed;
        try {
            parsed = Json.parse(line);
        } catch (IllegalArgumentException e) {
            return "malformed-json";
        }
        if (!(parsed instanceof Map<?, ?> event)) {
            return "not-an-object";
        }
        if (event.get("retracts") != null) {
            return timeReason(event);
        }
        Map<String, String> properties = vocabulary.get(event.get("type"));
        if (properties == null) {
            return "unknown-type";
        }
        if (!((Map<?, ?>) event.get("recordedBy")).containsKey("role")) {
            return "missing-property";
        }
        String reason = timeReason(event);
        return reason != null ? reason : dataReason((Map<?, ?>) event.get("data"), properties);
    }

    private static String timeReason(Map<?, ?> event) {
        for (String name : List.of("occurredAt", "recordedAt")) {
            String reason = timeReason((String) event.get(name));
            if (reason != null) {
                return reason;
            }
        }
        Duration early = Duration.between(time(event, "recordedAt"), time(event, "occurredAt"));
        return early.compareTo(CLOCKS_DIFFER_BY) > 0 ? "impossible-value" : null;
    }

    private static String timeReason(String time) {
        try {
            OffsetDateTime.parse(time);
            return null;
        } catch (DateTimeException e) {
            try {
                LocalDateTime.parse(time);
                return "time-without-offset";
            } catch (DateTimeException f) {
                return "invalid-value";
            }
        }
    }

    private static String dataReason(Map<?, ?> data, Map<String, String> properties) {
        for (Map.Entry<String, String> property : properties.entrySet()) {
            String name = property.getKey();
            boolean needed = name.startsWith("!");
            Object value = data.get(needed ? name.substring(1) : name);
            if (value == null && needed) {
                return "missing-property";
            }
            String reason = value == null ? null : valueReason(needed ? name.substring(1) : name, value, property.getValue());
            if (reason != null) {
                return reason;
            }
        }
        for (Object name : data.keySet()) {
            if (!properties.containsKey(name) && !properties.containsKey("!" + name)) {
                return "unknown-property";
            }
        }
        BigDecimal systolic = (BigDecimal) data.get("systolic");
        BigDecimal diastolic = (BigDecimal) data.get("diastolic");
        return systolic != null && diastolic != null && systolic.compareTo(diastolic) <= 0 ? "impossible-value" : null;
    }

    private static String valueReason(String name, Object value, String kind) {
        return switch (kind) {
            case "n" -> numberReason(name, value);
            case "b" -> value instanceof Boolean ? null : "wrong-type";
            case "l" -> value instanceof List ? null : "wrong-type";
            case "o" -> value instanceof Map ? null : "wrong-type";
            case "d" -> value instanceof String time ? timeReason(time) : "wrong-type";
            case "t" -> value instanceof String text ? text.isBlank() ? "invalid-value" : null : "wrong-type";
            default -> List.of(kind.split("\\|")).contains(value) ? null : "not-in-list";
        };
    }

    private static String numberReason(String name, Object value) {
        if (value instanceof Map<?, ?> amount) {
            Set<String> units = name.endsWith("Ml") ? MILLILITRES.keySet() : name.endsWith("G") ? GRAMS.keySet() : null;
            return units != null && !units.contains(amount.get("unit")) ? "wrong-unit" : null;
        }
        if (!(value instanceof BigDecimal number)) {
            return "wrong-type";
        }
        return number.signum() < 0 && !name.equals("fundusCm") ? "impossible-value" : null;
    }

    // ---- what stands

    // The latest recording of a chain stands; a chain with a retraction does not.
    private List<Map<?, ?>> standing() {
        Map<String, Map<?, ?>> latest = new LinkedHashMap<>();
        Set<String> retracted = new HashSet<>();
        for (Object one : sent.values()) {
            Map<?, ?> event = (Map<?, ?>) one;
            String root = root(event);
            if (event.get("retracts") != null) {
                retracted.add(root);
                continue;
            }
            Map<?, ?> before = latest.get(root);
            boolean later = before == null
                    || before.get("eventId").equals(root)
                    || !event.get("eventId").equals(root)
                            && !time(event, "recordedAt").isBefore(time(before, "recordedAt"));
            if (later) {
                latest.put(root, event);
            }
        }
        latest.keySet().removeAll(retracted);
        List<Map<?, ?>> standing = new ArrayList<>(latest.values());
        standing.sort(Comparator.comparing((Map<?, ?> it) -> time(it, "occurredAt").toInstant())
                .thenComparing(it -> time(it, "recordedAt").toInstant())
                .thenComparing(it -> (String) it.get("eventId")));
        return standing;
    }

    private String root(Map<?, ?> event) {
        Object target = event.get("retracts") != null ? event.get("retracts") : event.get("corrects");
        if (target == null) {
            return (String) event.get("eventId");
        }
        Map<?, ?> other = (Map<?, ?>) sent.get(target);
        return other == null ? (String) target : root(other);
    }

    // ---- working out

    private String written() {
        List<Map<?, ?>> standing = standing();
        List<Map<?, ?>> ofCase = standing.stream().filter(it -> it.get("caseId") != null).toList();
        List<String> loss = new ArrayList<>();
        BigDecimal total = bloodLoss(ofCase, loss);
        Signs signs = new Signs(ofCase);
        Map<?, ?> last = ofCase.stream()
                .max(Comparator.comparing(it -> time(it, "occurredAt").toInstant()))
                .orElseThrow();
        return "{\n  \"case\": \"" + last.get("caseId") + "\",\n"
                + "  \"events\": {\"lines\": " + lines + ", \"accepted\": " + sent.size() + ", \"unchanged\": " + unchanged
                + ", \"refused\": [" + String.join(", ", refused) + "], \"standing\": " + ofCase.size()
                + ", \"ofFacility\": " + (standing.size() - ofCase.size()) + "},\n"
                + "  \"cumulativeBloodLossMl\": " + rounded(total, 1) + ",\n"
                + array("bloodLoss", loss)
                + array("shockIndex", signs.shockIndex)
                + array("meanArterialPressure", signs.meanArterialPressure)
                + array("pulsePressure", signs.pulsePressure)
                + array("tamponades", tamponades(ofCase, time(last, "occurredAt")))
                + "  \"lastEventAt\": \"" + last.get("occurredAt") + "\"\n}\n";
    }

    // Of one instant there is one figure of a kind: that after all of its events.
    private static void say(List<String> series, Map<?, ?> event, String figure) {
        int last = series.size() - 1;
        boolean again = last >= 0
                && OffsetDateTime.parse(series.get(last).split("\"")[3])
                        .toInstant()
                        .equals(time(event, "occurredAt").toInstant());
        if (again) {
            series.remove(last);
        }
        series.add(at(event) + figure);
    }

    // A running total counts by its rise in its collector, an increment as it is; what is not blood is taken off.
    private static BigDecimal bloodLoss(List<Map<?, ?>> events, List<String> series) {
        BigDecimal total = BigDecimal.ZERO;
        Map<String, BigDecimal> held = new TreeMap<>();
        for (Map<?, ?> event : events) {
            if (!event.get("type").equals("blood-loss")) {
                continue;
            }
            Map<?, ?> data = (Map<?, ?>) event.get("data");
            BigDecimal blood = data.get("volumeMl") != null
                    ? amount(data.get("volumeMl"), MILLILITRES)
                    : amount(data.get("wetG"), GRAMS).subtract(amount(data.get("dryG"), GRAMS));
            blood = blood.subtract(amount(data.get("otherFluidMl"), MILLILITRES)).max(BigDecimal.ZERO);
            if (data.get("reading").equals("increment")) {
                total = total.add(blood);
            } else {
                String collector = data.get("method") + " " + data.get("collector");
                BigDecimal before = held.getOrDefault(collector, BigDecimal.ZERO);
                total = total.add(blood.subtract(before).max(BigDecimal.ZERO));
                held.put(collector, Boolean.TRUE.equals(data.get("emptied")) ? BigDecimal.ZERO : blood.max(before));
            }
            say(series, event, ", \"cumulativeBloodLossMl\": " + rounded(total, 1) + "}");
        }
        return total;
    }

    /** What pulse and pressure give. Pulse and pressure pair within five minutes; the pair is dated at the later. */
    private static final class Signs {

        final List<String> shockIndex = new ArrayList<>();
        final List<String> meanArterialPressure = new ArrayList<>();
        final List<String> pulsePressure = new ArrayList<>();
        private Map<?, ?> pulse;
        private Map<?, ?> pressure;

        Signs(List<Map<?, ?>> events) {
            events.stream().filter(it -> it.get("type").equals("vital-signs")).forEach(this::add);
        }

        private void add(Map<?, ?> event) {
            Map<?, ?> data = (Map<?, ?>) event.get("data");
            boolean unrecordable = Boolean.TRUE.equals(data.get("pressureUnrecordable"));
            BigDecimal systolic = (BigDecimal) data.get("systolic");
            BigDecimal diastolic = (BigDecimal) data.get("diastolic");
            pulse = data.get("pulse") != null ? event : pulse;
            pressure = systolic != null || unrecordable ? event : pressure;
            boolean either = pulse == event || pressure == event;
            if (pressure == event && unrecordable) {
                say(shockIndex, event, ", \"shockIndex\": null, \"reason\": \"pressure-unrecordable\"}");
            } else if (either && paired()) {
                index(event);
            }
            if (systolic != null && diastolic != null) {
                BigDecimal sum = systolic.add(diastolic).add(diastolic);
                say(meanArterialPressure, event, ", \"meanArterialPressureMmHg\": "
                        + sum.divide(new BigDecimal(3), 1, RoundingMode.HALF_UP) + "}");
                say(pulsePressure, event, ", \"pulsePressureMmHg\": "
                        + systolic.subtract(diastolic).setScale(0, RoundingMode.HALF_UP) + "}");
            }
        }

        private boolean paired() {
            return pulse != null
                    && pressure != null
                    && Duration.between(time(pulse, "occurredAt"), time(pressure, "occurredAt"))
                                    .abs()
                                    .compareTo(PAIRED_WITHIN)
                            <= 0;
        }

        private void index(Map<?, ?> event) {
            Map<?, ?> signs = (Map<?, ?>) pressure.get("data");
            if (Boolean.TRUE.equals(signs.get("pressureUnrecordable"))) {
                say(shockIndex, event, ", \"shockIndex\": null, \"reason\": \"pressure-unrecordable\"}");
                return;
            }
            BigDecimal beats = (BigDecimal) ((Map<?, ?>) pulse.get("data")).get("pulse");
            BigDecimal ratio = beats.divide((BigDecimal) signs.get("systolic"), 2, RoundingMode.HALF_UP);
            say(shockIndex, event, ", \"shockIndex\": " + ratio.toPlainString() + "}");
        }
    }

    // Each insertion is a tamponade of its own, up to its removal or expulsion, or the last event.
    private static List<String> tamponades(List<Map<?, ?>> events, OffsetDateTime end) {
        List<String> all = new ArrayList<>();
        for (int i = 0; i < events.size(); i++) {
            if (events.get(i).get("type").equals("tamponade-inserted")) {
                all.add(new Balloon(events.get(i)).course(events.subList(i + 1, events.size()), end));
            }
        }
        return all;
    }

    /** One device, from its insertion on. */
    private static final class Balloon {

        private final Map<?, ?> inserted;
        private final Map<String, BigDecimal> held = new LinkedHashMap<>();
        private final Map<String, List<String>> series = new LinkedHashMap<>();
        private Map<?, ?> controlled;
        private String volumeAtControl = "null";
        private Map<?, ?> removed;

        Balloon(Map<?, ?> inserted) {
            this.inserted = inserted;
        }

        String course(List<Map<?, ?>> events, OffsetDateTime end) {
            for (Map<?, ?> event : events) {
                String type = (String) event.get("type");
                if (type.equals("tamponade-removed")) {
                    removed = event;
                    break;
                }
                Map<?, ?> data = (Map<?, ?>) event.get("data");
                if (type.equals("balloon-filled") || type.equals("balloon-drained")) {
                    change(event, data, type.equals("balloon-filled"));
                } else if (type.equals("bleeding-checked") && controlled == null && !held.isEmpty()) {
                    control(event, data);
                }
            }
            return written(end);
        }

        private void change(Map<?, ?> event, Map<?, ?> data, boolean in) {
            String chamber = (String) data.get("chamber");
            BigDecimal millilitres = amount(data.get("volumeMl"), MILLILITRES);
            BigDecimal before = held.getOrDefault(chamber, BigDecimal.ZERO);
            BigDecimal now = in ? before.add(millilitres) : before.subtract(millilitres).max(BigDecimal.ZERO);
            held.put(chamber, now);
            series.computeIfAbsent(chamber, it -> new ArrayList<>())
                    .add(at(event) + ", \"volumeMl\": " + rounded(now, 1) + "}");
        }

        private void control(Map<?, ?> event, Map<?, ?> data) {
            if (Set.of("none", "light").contains(data.get("amount"))) {
                controlled = event;
                volumeAtControl = rounded(held.getOrDefault("tamponade", BigDecimal.ZERO), 1);
            }
        }

        private String written(OffsetDateTime end) {
            OffsetDateTime out = removed == null ? end : time(removed, "occurredAt");
            StringBuilder text = new StringBuilder("{\n      \"insertedAt\": " + quoted(inserted.get("occurredAt")));
            text.append(",\n      \"bleedingControlledAt\": ")
                    .append(controlled == null ? "null" : quoted(controlled.get("occurredAt")));
            text.append(",\n      \"minutesToControl\": ")
                    .append(controlled == null ? "null" : minutes(time(controlled, "occurredAt")));
            text.append(",\n      \"volumeAtControlMl\": ").append(volumeAtControl);
            text.append(",\n      \"removedAt\": ").append(removed == null ? "null" : quoted(removed.get("occurredAt")));
            text.append(",\n      \"removalReason\": ")
                    .append(removed == null ? "null" : quoted(((Map<?, ?>) removed.get("data")).get("reason")));
            text.append(",\n      \"minutesInSitu\": ").append(minutes(out));
            text.append(",\n      \"balloonVolume\": {");
            List<String> chambers = new ArrayList<>();
            series.forEach((chamber, volumes) -> chambers.add("\n        " + quoted(chamber) + ": [\n          "
                    + String.join(",\n          ", volumes) + "\n        ]"));
            return text.append(String.join(",", chambers)).append("\n      }\n    }").toString();
        }

        private String minutes(OffsetDateTime until) {
            return String.valueOf(Duration.between(time(inserted, "occurredAt"), until).toMinutes());
        }
    }

    // ---- writing

    private static String at(Map<?, ?> event) {
        return "{\"occurredAt\": " + quoted(event.get("occurredAt"));
    }

    private static String array(String name, List<String> entries) {
        return "  \"" + name + "\": [\n    " + String.join(",\n    ", entries) + "\n  ],\n";
    }

    private static String quoted(Object text) {
        return "\"" + text + "\"";
    }

    private static String rounded(BigDecimal value, int scale) {
        return value.setScale(scale, RoundingMode.HALF_UP).toPlainString();
    }

    private static OffsetDateTime time(Map<?, ?> event, String name) {
        return OffsetDateTime.parse((String) event.get(name));
    }

    private static BigDecimal amount(Object value, Map<String, String> units) {
        if (value instanceof Map<?, ?> amount) {
            return ((BigDecimal) amount.get("value")).multiply(new BigDecimal(units.get(amount.get("unit"))));
        }
        return value == null ? BigDecimal.ZERO : (BigDecimal) value;
    }

    /** As much of RFC 8259 as the samples need: objects are maps, arrays lists, numbers decimals. */
    private static final class Json {

        private final String text;
        private int at;

        private Json(String text) {
            this.text = text;
        }

        static Object parse(String text) {
            Json json = new Json(text);
            Object value = json.value();
            json.space();
            if (json.at < text.length()) {
                throw new IllegalArgumentException("more behind the value");
            }
            return value;
        }

        private Object value() {
            space();
            return switch (peek()) {
                case '{' -> object();
                case '[' -> list();
                case '"' -> string();
                case 't' -> word("true", Boolean.TRUE);
                case 'f' -> word("false", Boolean.FALSE);
                case 'n' -> word("null", null);
                default -> number();
            };
        }

        private Map<String, Object> object() {
            Map<String, Object> object = new LinkedHashMap<>();
            at++;
            space();
            while (peek() != '}') {
                String name = string();
                space();
                expect(':');
                object.put(name, value());
                space();
                if (peek() != '}') {
                    expect(',');
                    space();
                }
            }
            at++;
            return object;
        }

        private List<Object> list() {
            List<Object> list = new ArrayList<>();
            at++;
            space();
            while (peek() != ']') {
                list.add(value());
                space();
                if (peek() != ']') {
                    expect(',');
                }
            }
            at++;
            return list;
        }

        private String string() {
            expect('"');
            StringBuilder string = new StringBuilder();
            while (peek() != '"') {
                char c = text.charAt(at++);
                if (c == '\\') {
                    char escaped = text.charAt(at++);
                    if (escaped == 'u') {
                        string.append((char) Integer.parseInt(text.substring(at, at + 4), 16));
                        at += 4;
                    } else {
                        string.append("nrtbf".indexOf(escaped) < 0 ? escaped : ' ');
                    }
                } else {
                    string.append(c);
                }
            }
            at++;
            return string.toString();
        }

        private Object word(String word, Object value) {
            if (!text.startsWith(word, at)) {
                throw new IllegalArgumentException("no value at " + at);
            }
            at += word.length();
            return value;
        }

        private BigDecimal number() {
            int begin = at;
            while (at < text.length() && "+-.eE0123456789".indexOf(text.charAt(at)) >= 0) {
                at++;
            }
            return new BigDecimal(text.substring(begin, at));
        }

        private char peek() {
            if (at >= text.length()) {
                throw new IllegalArgumentException("ends too early");
            }
            return text.charAt(at);
        }

        private void expect(char c) {
            if (peek() != c) {
                throw new IllegalArgumentException("no " + c + " at " + at);
            }
            at++;
        }

        private void space() {
            while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
                at++;
            }
        }
    }
}
