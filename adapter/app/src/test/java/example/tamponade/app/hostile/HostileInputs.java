package example.tamponade.app.hostile;

import static java.nio.charset.StandardCharsets.UTF_8;

import example.tamponade.app.AwkwardText;
import example.tamponade.app.Samples;
import example.tamponade.app.intake.InputFormat;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;

/** Makes hostile inputs: samples spoilt at random, and those that are made to cost much. */
final class HostileInputs {

    private static final Map<InputFormat, String> TYPES = new EnumMap<>(Map.of(
            InputFormat.EVENT, "application/x-ndjson",
            InputFormat.REGISTER, "text/csv",
            InputFormat.MESSAGE, "application/hl7-v2+er7",
            InputFormat.RESPONSE, "application/fhir+json",
            InputFormat.OBSERVATION, "application/fhir+json"));

    // Times, units and names that no event can have, and texts that are long or look like something else; from memory.
    private static final List<String> MORE = List.of(
            "\u2028",
            "\u3000",
            "\uD83E\uDD31",
            "\\u0000",
            "\\ud800",
            "]",
            "1e-999999999",
            "1e2147483648",
            "0000-01-01T00:00:00Z",
            "9999-12-31T23:59:59-18:00",
            "+18:00",
            "2026-02-30T25:61:00Z",
            "cm9999.dm-9996",
            "Ym999.ym-996",
            "10*99999.m",
            "((((((((m))))))))",
            "..",
            ".",
            "../../etc/passwd",
            "<script>",
            "%00",
            "\u001c\r\u000b",
            "T".repeat(70_000));

    private static final List<String> TOKENS =
            Stream.concat(AwkwardText.TOKENS.stream(), MORE.stream()).toList();

    private final Random random;

    HostileInputs(long seed) {
        this.random = new Random(seed);
    }

    /** A sample of any format, a part of it, spoilt in a few places. */
    HostileInput spoilt() {
        InputFormat format = InputFormat.values()[random.nextInt(InputFormat.values().length)];
        List<byte[]> samples = Samples.of(format);
        byte[] bytes = part(samples.get(random.nextInt(samples.size())));
        for (int i = random.nextInt(4); i >= 0; i--) {
            bytes = spoilt(bytes);
        }
        boolean single = format == InputFormat.EVENT && random.nextBoolean();
        return input("spoilt " + format.code(), format, single ? "application/json" : TYPES.get(format), bytes);
    }

    private byte[] part(byte[] sample) {
        int length = Math.min(sample.length, 200 + random.nextInt(8000));
        int from = random.nextBoolean() ? 0 : lineBegin(sample, random.nextInt(sample.length));
        return Arrays.copyOfRange(sample, from, Math.min(sample.length, from + length));
    }

    private static int lineBegin(byte[] sample, int at) {
        int begin = at;
        while (begin > 0 && sample[begin - 1] != '\n' && sample[begin - 1] != '\r') {
            begin--;
        }
        return begin;
    }

    private byte[] spoilt(byte[] bytes) {
        int at = random.nextInt(bytes.length + 1);
        int to = Math.min(bytes.length, at + random.nextInt(12));
        String token = TOKENS.get(random.nextInt(TOKENS.size()));
        return switch (random.nextInt(5)) {
            case 0 -> joined(head(bytes, at), new byte[] {(byte) random.nextInt(256)}, tail(bytes, to));
            case 1 -> joined(head(bytes, at), tail(bytes, to));
            case 2 -> joined(bytes, tail(bytes, at));
            case 3 -> valueReplaced(bytes, token);
            default -> joined(head(bytes, at), token.getBytes(UTF_8), tail(bytes, at));
        };
    }

    // A value between separators of any of the formats, so that the rest can still be read.
    private byte[] valueReplaced(byte[] bytes, String token) {
        String text = new String(bytes, UTF_8);
        List<int[]> values = new ArrayList<>();
        java.util.regex.Matcher value = java.util.regex.Pattern.compile(
                        "(?<=[:,|\"])[^:,|\"{}\\[\\]\\s]+(?=[,|\"}\\]])")
                .matcher(text);
        while (value.find()) {
            values.add(new int[] {value.start(), value.end()});
        }
        if (values.isEmpty()) {
            return bytes;
        }
        int[] chosen = values.get(random.nextInt(values.size()));
        return (text.substring(0, chosen[0]) + token + text.substring(chosen[1])).getBytes(UTF_8);
    }

    /** Inputs that are made to cost much, each of that many bytes or less. */
    List<HostileInput> costly(int size) {
        String mark = Long.toHexString(random.nextLong());
        return List.of(
                json("a long text", "\"" + mark + "x".repeat(size) + "\""),
                json("empty objects", "{\"" + mark + "\":[" + "{},".repeat(size / 3) + "{}]}"),
                json("numbers", "{\"" + mark + "\":[" + "1.5,".repeat(size / 4) + "1]}"),
                json("open brackets", "[".repeat(size)),
                json("names", "{\"" + mark + "\":" + "{\"a\":".repeat(size / 5)),
                input("a long line", InputFormat.EVENT, "application/x-ndjson", mark + "x".repeat(size) + "\n{}\n"),
                input(
                        "short lines",
                        InputFormat.EVENT,
                        "application/x-ndjson",
                        "{}\n".repeat(Math.min(size, 30_000) / 3)),
                input("commas", InputFormat.REGISTER, "text/csv", "type," + mark + "\n" + ",".repeat(size) + "\n"),
                input("an open quote", InputFormat.REGISTER, "text/csv", "type\n\"" + mark + "\n".repeat(size / 100)),
                input("columns", InputFormat.REGISTER, "text/csv", "c,".repeat(size / 2) + mark + "\n"),
                fhir("notes", "Observation", "\"note\":[" + "{\"text\":\"y\"},".repeat(size / 14) + "{}]", mark),
                fhir(
                        "items",
                        "QuestionnaireResponse",
                        "\"item\":[" + "{\"linkId\":\"a\"},".repeat(size / 17) + "{}]",
                        mark),
                fhir(
                        "events",
                        "QuestionnaireResponse",
                        "\"item\":[" + "{\"linkId\":\"a\"},".repeat(size / 34)
                                + "{\"linkId\":\"event\"},".repeat(size / 42) + "{}]",
                        mark),
                input(
                        "a bundle",
                        InputFormat.OBSERVATION,
                        TYPES.get(InputFormat.OBSERVATION),
                        "{\"resourceType\":\"Bundle\",\"id\":\"" + mark + "\",\"entry\":["
                                + "{\"resource\":{}},".repeat(Math.min(size, 30_000) / 16) + "{}]}"),
                message("groups", mark, "OBR|1||a|b\r".repeat(size / 11)),
                message("observations", mark, "OBX|1|NM|1||1\r".repeat(size / 14)),
                message("separators", mark, "OBX|" + "^".repeat(size) + "\r"));
    }

    private static HostileInput json(String name, String body) {
        return input(name, InputFormat.EVENT, "application/json", body);
    }

    private static HostileInput fhir(String name, String type, String content, String mark) {
        return input(
                name,
                InputFormat.RESPONSE,
                TYPES.get(InputFormat.RESPONSE),
                "{\"resourceType\":\"" + type + "\",\"id\":\"" + mark + "\"," + content + "}");
    }

    private static HostileInput message(String name, String mark, String segments) {
        return input(
                name,
                InputFormat.MESSAGE,
                TYPES.get(InputFormat.MESSAGE),
                "MSH|^~\\&|a|b|c|d|20260101||ORU^R01|" + mark + "|P|2.5.1\r" + segments);
    }

    private static HostileInput input(String name, InputFormat format, String type, String body) {
        return input(name, format, type, body.getBytes(UTF_8));
    }

    private static HostileInput input(String name, InputFormat format, String type, byte[] body) {
        return new HostileInput(name, format == InputFormat.MESSAGE ? "/messages" : "/events", type, body);
    }

    private static byte[] head(byte[] bytes, int to) {
        return Arrays.copyOf(bytes, to);
    }

    private static byte[] tail(byte[] bytes, int from) {
        return Arrays.copyOfRange(bytes, from, bytes.length);
    }

    private static byte[] joined(byte[]... parts) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            all.writeBytes(part);
        }
        return all.toByteArray();
    }
}
