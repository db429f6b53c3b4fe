package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;
import example.tamponade.core.yaml.NotYamlException;
import example.tamponade.core.yaml.YamlBlock;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HexFormat;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Reads a care protocol file, collecting every problem before it refuses. */
final class ProtocolReader {

    private static final BigDecimal LONGEST_INTERVAL = new BigDecimal(1440);
    private static final BigDecimal LONGEST_STAGE = new BigDecimal(20_160);
    private static final BigDecimal LEAST_BAND = new BigDecimal("0.1");
    private static final BigDecimal GREATEST_BAND = new BigDecimal(5);

    private static final String STANDARD = "standard-protocol.yaml";

    private final List<String> problems = new ArrayList<>();

    private ProtocolReader() {}

    static CareProtocol readStandard() {
        try (InputStream in = ProtocolReader.class.getResourceAsStream(STANDARD)) {
            if (in == null) {
                throw new IllegalStateException(STANDARD + " is not on the class path");
            }
            return read(STANDARD, new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static CareProtocol read(String name, String yaml) {
        ProtocolReader reader = new ProtocolReader();
        try {
            CareProtocol protocol = reader.protocol(YamlBlock.read(name, yaml, reader.problems), digest(yaml));
            if (!reader.problems.isEmpty()) {
                throw new InvalidProtocolException(name, reader.problems);
            }
            return protocol;
        } catch (NotYamlException e) {
            throw new InvalidProtocolException(name, List.of(String.valueOf(e.getMessage())));
        }
    }

    private static String digest(String yaml) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            return HexFormat.of().formatHex(digest.digest(yaml.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    private CareProtocol protocol(YamlBlock file, String digest) {
        file.allowOnly(
                Set.of("id", "version", "title", "caution", "settings", "choices", "schedule", "limits", "bands"));
        file.text("title");
        file.text("caution");
        return new CareProtocol(
                file.text("id"),
                file.text("version"),
                digest,
                settings(file.block("settings")),
                limits(file.block("limits")),
                bands(file.block("bands")),
                choice(file.block("choices"), "blood-volume-method", BloodVolumeMethod.values()),
                choice(file.block("choices"), "deflation-completion", DeflationCompletion.values()),
                schedule(file.block("schedule")));
    }

    private static <T extends Coded> T choice(YamlBlock block, String key, T[] values) {
        block.allowOnly(Set.of("blood-volume-method", "deflation-completion"));
        YamlBlock entry = block.block(key);
        entry.allowOnly(Set.of("value", "source", "note"));
        entry.text("source");
        String code = entry.text("value");
        return Arrays.stream(values)
                .filter(it -> it.code().equals(code))
                .findFirst()
                .orElseGet(() -> {
                    entry.problem("has no choice '" + code + "'; use one of " + String.join(", ", codes(values)));
                    return values[0];
                });
    }

    private static CheckSchedule schedule(YamlBlock block) {
        Set<String> known = codes(Phase.values());
        Set<String> keys = new LinkedHashSet<>(known);
        keys.addAll(List.of("unit", "source", "note"));
        block.allowOnly(keys);
        block.unit("min");
        Map<Phase, List<CheckSchedule.Stage>> stages = new EnumMap<>(Phase.class);
        for (Phase phase : Phase.values()) {
            stages.put(phase, stages(block, phase.code()));
        }
        return new CheckSchedule(stages, block.text("source"));
    }

    private static List<CheckSchedule.Stage> stages(YamlBlock block, String phase) {
        List<YamlBlock> entries = block.blocks(phase);
        List<CheckSchedule.Stage> stages = new ArrayList<>();
        for (int i = 0; i < entries.size(); i++) {
            YamlBlock entry = entries.get(i);
            boolean last = i == entries.size() - 1;
            entry.allowOnly(Set.of("every", "for"));
            if (last == entry.keys().contains("for")) {
                entry.problem(last ? "is the last stage and lasts on; drop its for" : "needs a for");
            }
            stages.add(new CheckSchedule.Stage(
                    minutes(entry, "every", LONGEST_INTERVAL),
                    last ? Duration.ZERO : minutes(entry, "for", LONGEST_STAGE)));
        }
        return stages;
    }

    private Map<Setting, ProtocolValue> settings(YamlBlock block) {
        block.allowOnly(codes(Setting.values()));
        Map<Setting, ProtocolValue> values = new EnumMap<>(Setting.class);
        for (Setting setting : Setting.values()) {
            YamlBlock entry = block.block(setting.code());
            entry.allowOnly(Set.of("value", "unit", "source", "note"));
            entry.unit(setting.unit());
            values.put(
                    setting,
                    new ProtocolValue(
                            setting,
                            within(entry, "value", setting.least(), setting.most()),
                            entry.text("source"),
                            entry.optionalText("note")));
        }
        if (problems.isEmpty()) {
            Contradictions.of(values).forEach(block::problem);
        }
        return values;
    }

    private Map<Measure, Limit> limits(YamlBlock block) {
        block.allowOnly(codes(Measure.values()));
        Map<Measure, Limit> limits = new EnumMap<>(Measure.class);
        for (Measure measure : Measure.values()) {
            limits.put(measure, limit(measure, block.block(measure.code())));
        }
        return limits;
    }

    private static Limit limit(Measure measure, YamlBlock entry) {
        entry.allowOnly(Set.of("unit", "possible", "plausible", "source", "note"));
        entry.unit(measure.unit());
        List<BigDecimal> possible = entry.range("possible");
        List<BigDecimal> plausible = entry.range("plausible");
        Limit limit = new Limit(
                measure, possible.get(0), possible.get(1), plausible.get(0), plausible.get(1), entry.text("source"));
        if (!limit.possible(limit.plausibleFrom()) || !limit.possible(limit.plausibleTo())) {
            entry.problem("calls plausible what it calls impossible; narrow the plausible range");
        }
        return limit;
    }

    private static Bands bands(YamlBlock block) {
        block.allowOnly(Set.of("shock-index"));
        YamlBlock entry = block.block("shock-index");
        entry.allowOnly(Set.of("unit", "raised-from", "high-from", "critical-from", "source", "note"));
        entry.unit("{ratio}");
        Bands bands = new Bands(
                within(entry, "raised-from", LEAST_BAND, GREATEST_BAND),
                within(entry, "high-from", LEAST_BAND, GREATEST_BAND),
                within(entry, "critical-from", LEAST_BAND, GREATEST_BAND),
                "{ratio}",
                entry.text("source"));
        if (bands.raisedFrom().compareTo(bands.highFrom()) >= 0) {
            entry.problem("begins the high band at or below the raised one; raise high-from");
        }
        if (bands.highFrom().compareTo(bands.criticalFrom()) >= 0) {
            entry.problem("begins the critical band at or below the high one; raise critical-from");
        }
        return bands;
    }

    private static BigDecimal within(YamlBlock entry, String key, BigDecimal least, BigDecimal most) {
        BigDecimal value = entry.number(key);
        if (value.compareTo(least) < 0 || value.compareTo(most) > 0) {
            entry.problem(
                    "has a " + key + " of " + value + ", which cannot be meant; it is from " + least + " to " + most);
            return least;
        }
        return value;
    }

    private static Duration minutes(YamlBlock entry, String key, BigDecimal most) {
        BigDecimal value = within(entry, key, BigDecimal.ONE, most);
        if (value.stripTrailingZeros().scale() > 0) {
            entry.problem("has a " + key + " of " + value + "; it is in whole minutes");
        }
        return Duration.ofMinutes(value.longValue());
    }

    private static Set<String> codes(Coded[] constants) {
        return Arrays.stream(constants).map(Coded::code).collect(Collectors.toCollection(LinkedHashSet::new));
    }
}
