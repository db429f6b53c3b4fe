package example.tamponade.fhir.bundle;

import example.tamponade.core.event.Coded;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.Map;
import java.util.Objects;
import java.util.Properties;
import java.util.Set;
import java.util.stream.Collectors;

/** The sections of the case document, in clinical order. */
enum Section implements Coded {
    MOTHER,
    BIRTH,
    HAEMORRHAGE,
    FIRST_LINE,
    BLOOD_LOSS,
    VITAL_SIGNS,
    TAMPONADE,
    FLUIDS_AND_MEDICINES,
    URINE,
    EXAMINATIONS,
    LABORATORY,
    WARNINGS,
    REFERRAL,
    OUTCOME,
    NOTES,
    PROVENANCE;

    private static final Map<String, Section> BY_PROFILE = byProfile();

    /**
     * The section that resources of a profile stand in.
     *
     * @param profile the profile's id, for example {@code blood-loss}
     * @throws IllegalArgumentException when no section is named for it
     */
    static Section of(String profile) {
        Section section = BY_PROFILE.get(profile);
        if (section == null) {
            throw new IllegalArgumentException("no section for profile " + profile);
        }
        return section;
    }

    /** The profiles that have a section. */
    static Set<String> profiles() {
        return BY_PROFILE.keySet();
    }

    private static Map<String, Section> byProfile() {
        try (InputStream in = Section.class.getResourceAsStream("sections.properties")) {
            Properties profiles = new Properties();
            profiles.load(Objects.requireNonNull(in));
            Map<String, Section> sections =
                    Arrays.stream(values()).collect(Collectors.toUnmodifiableMap(Coded::code, it -> it));
            return profiles.stringPropertyNames().stream()
                    .collect(Collectors.toUnmodifiableMap(
                            it -> it, it -> Objects.requireNonNull(sections.get(profiles.getProperty(it)))));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
