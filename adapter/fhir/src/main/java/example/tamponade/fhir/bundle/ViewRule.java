package example.tamponade.fhir.bundle;

import example.tamponade.core.event.Coded;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Properties;
import java.util.stream.Collectors;

/** How much of one profile a view tells. */
enum ViewRule implements Coded {
    /** All of it, what was entered in error too. */
    ALL,
    /** What stands at each change of state and on the hour, and the latest. */
    CHANGES,
    /** The latest of each code. */
    LATEST,
    /** What is open: warnings that have not ended. */
    OPEN,
    /** What something else in the view points to. */
    NAMED,
    /** Nothing. */
    NONE;

    private static final Map<String, Map<CaseView, ViewRule>> BY_PROFILE = byProfile();

    /**
     * The rule for a profile.
     *
     * @param profile the profile's id, for example {@code shock-index}
     * @throws IllegalArgumentException when the profile has no rule
     */
    static ViewRule of(String profile, CaseView view) {
        if (view == CaseView.FULL) {
            return ALL;
        }
        Map<CaseView, ViewRule> rules = BY_PROFILE.get(profile);
        if (rules == null) {
            throw new IllegalArgumentException("no rule for profile " + profile + " in views.properties");
        }
        return Objects.requireNonNull(rules.get(view));
    }

    private static Map<String, Map<CaseView, ViewRule>> byProfile() {
        try (InputStream in = ViewRule.class.getResourceAsStream("views.properties")) {
            Properties rules = new Properties();
            rules.load(Objects.requireNonNull(in));
            return rules.stringPropertyNames().stream()
                    .collect(Collectors.toUnmodifiableMap(it -> it, it -> rules(rules.getProperty(it))));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Map<CaseView, ViewRule> rules(String written) {
        List<ViewRule> rules =
                Arrays.stream(written.split(" ")).map(ViewRule::written).toList();
        return Map.of(CaseView.COURSE, rules.get(0), CaseView.HANDOVER, rules.get(1));
    }

    private static ViewRule written(String code) {
        return Arrays.stream(values())
                .filter(it -> it.code().equals(code))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no rule " + code));
    }
}
