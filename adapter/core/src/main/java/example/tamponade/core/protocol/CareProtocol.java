package example.tamponade.core.protocol;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Which limits and thresholds hold at a facility?
 *
 * @param id the protocol's name
 * @param version its version; recorded on every derived fact
 * @param digest SHA-256 of its text in UTF-8, lower-case hex: a changed copy is told from the one that it was made of
 * @param values every setting
 * @param limits every measure's range
 * @param shockIndexBands bands of the shock index
 * @param bloodVolumeMethod by which formula the blood volume is estimated
 * @param deflationCompletion how the balloon is deflated after the first watched step
 * @param schedule how often the mother is checked
 */
public record CareProtocol(
        String id,
        String version,
        String digest,
        Map<Setting, ProtocolValue> values,
        Map<Measure, Limit> limits,
        Bands shockIndexBands,
        BloodVolumeMethod bloodVolumeMethod,
        DeflationCompletion deflationCompletion,
        CheckSchedule schedule) {

    private static final BigDecimal SECONDS_PER_MINUTE = BigDecimal.valueOf(60);
    private static final BigDecimal SECONDS_PER_HOUR = BigDecimal.valueOf(3600);

    public CareProtocol {
        values = Map.copyOf(values);
        limits = Map.copyOf(limits);
    }

    /** The protocol that comes with the adapter: published values where there are any, common practice elsewhere. */
    public static CareProtocol standard() {
        return ProtocolReader.readStandard();
    }

    /**
     * Reads a facility's own protocol.
     *
     * @param name what to call the file in messages
     * @param yaml its text
     * @throws InvalidProtocolException listing every problem with its line
     */
    public static CareProtocol read(String name, String yaml) {
        return ProtocolReader.read(name, yaml);
    }

    /**
     * Reads a facility's own protocol from its file, or takes the standard one.
     *
     * @param file the file; null for the standard protocol
     * @throws InvalidProtocolException listing every problem with its line
     * @throws IOException when the file cannot be read
     */
    public static CareProtocol of(@Nullable Path file) throws IOException {
        return file == null ? standard() : read(file.toString(), Files.readString(file, StandardCharsets.UTF_8));
    }

    /** The value of a setting, in the setting's unit. */
    public BigDecimal value(Setting setting) {
        return Objects.requireNonNull(values.get(setting)).value();
    }

    /** The value of a setting whose unit is the minute or the hour. */
    public Duration duration(Setting setting) {
        BigDecimal seconds = value(setting).multiply(secondsPer(setting));
        return Duration.ofSeconds(seconds.setScale(0, RoundingMode.HALF_UP).longValueExact());
    }

    private static BigDecimal secondsPer(Setting setting) {
        return switch (setting.unit()) {
            case "min" -> SECONDS_PER_MINUTE;
            case "h" -> SECONDS_PER_HOUR;
            default -> throw new IllegalArgumentException(setting + " is not a time");
        };
    }

    /** The range of a kind of value. */
    public Limit limit(Measure measure) {
        return Objects.requireNonNull(limits.get(measure));
    }

    /** Id, version and digest in one word, as derived facts carry them: {@code id|version|digest}. */
    public String reference() {
        return id + "|" + version + "|" + digest;
    }
}
