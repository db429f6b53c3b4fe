package example.tamponade.core.derivation;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Reads rule sets and readings out of the published tables. */
final class Published {

    private static final OffsetDateTime BEGIN = OffsetDateTime.parse("2026-02-11T22:00:00+05:45");

    private Published() {}

    /** The rules of a table whose rows are sign, comparison, limit, unit, and why a row is not used. */
    static List<SignRule> rules(String table) {
        return rows(table).stream()
                .filter(it -> it[4].isEmpty())
                .map(it -> rule(it[0], it[1], it[2], it[3]))
                .toList();
    }

    /** The signs of a table of rules that are not used. */
    static List<String> notUsed(String table) {
        return rows(table).stream()
                .filter(it -> !it[4].isEmpty())
                .map(it -> it[0])
                .toList();
    }

    /** The criteria of a table whose rows are criterion, sign, comparison, limit, unit. */
    static List<NearMiss.Criterion> criteria(String table) {
        Map<String, List<SignRule>> rules = new LinkedHashMap<>();
        rows(table)
                .forEach(it ->
                        rules.computeIfAbsent(it[0], any -> new ArrayList<>()).add(rule(it[1], it[2], it[3], it[4])));
        return rules.entrySet().stream()
                .map(it -> new NearMiss.Criterion(it.getKey(), it.getValue()))
                .toList();
    }

    /** Readings written as {@code pulse=130 not-alert}. */
    static Readings readings(String text) {
        Map<Sign, BigDecimal> values = new EnumMap<>(Sign.class);
        Set<Sign> seen = EnumSet.noneOf(Sign.class);
        for (String token : text.split(" ")) {
            int equals = token.indexOf('=');
            if (equals < 0) {
                seen.add(Figures.coded(Sign.values(), token));
            } else {
                values.put(
                        Figures.coded(Sign.values(), token.substring(0, equals)),
                        new BigDecimal(token.substring(equals + 1)));
            }
        }
        return new Readings(values, seen);
    }

    /** Values by minute, written as {@code 0=84 30=90}. */
    static Map<OffsetDateTime, BigDecimal> byMinute(String text) {
        return Arrays.stream(text.split(" "))
                .map(it -> it.split("="))
                .collect(Collectors.toMap(it -> BEGIN.plusMinutes(Long.parseLong(it[0])), it -> new BigDecimal(it[1])));
    }

    /** Hourly collections one after the other, written as {@code 34 35}, mL. */
    static List<UrineCollection> hourly(String volumesMl) {
        List<UrineCollection> collections = new ArrayList<>();
        for (String volumeMl : volumesMl.split(" ")) {
            OffsetDateTime from = BEGIN.plusHours(collections.size());
            collections.add(
                    new UrineCollection(from.toInstant(), from.plusHours(1).toInstant(), new BigDecimal(volumeMl)));
        }
        return collections;
    }

    /** The signs of the rules that fired, as codes in one line; {@code none} when none did. */
    static String signs(List<FiredSign> fired) {
        return fired.isEmpty()
                ? "none"
                : fired.stream().map(it -> it.sign().code()).collect(Collectors.joining(" "));
    }

    private static SignRule rule(String sign, String comparison, String limit, String unit) {
        Sign looksAt = Figures.coded(Sign.values(), sign);
        if (comparison.equals("seen")) {
            return new SignRule.Seen(looksAt);
        }
        if (!unit.equals(looksAt.unit())) {
            throw new IllegalArgumentException(sign + " in " + unit);
        }
        return new SignRule.Limit(looksAt, Figures.coded(Comparison.values(), comparison), new BigDecimal(limit));
    }

    private static List<String[]> rows(String table) {
        try (InputStream in = Published.class.getResourceAsStream(table)) {
            Stream<String> lines = new String(in.readAllBytes(), StandardCharsets.UTF_8).lines();
            return lines.filter(it -> !it.startsWith("#"))
                    .skip(1)
                    .map(it -> it.split(",", -1))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
