package example.tamponade.fhir.bundle;

import example.tamponade.core.event.Coded;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
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
    private static final List<String> PROFILES = List.copyOf(BY_PROFILE.keySet());

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

    /** Where a profile stands among all that have a section; what a clinician reads first comes first. */
    static int place(String profile) {
        return PROFILES.indexOf(profile);
    }

    /** The profiles that have a section. */
    static Set<String> profiles() {
        return Set.copyOf(PROFILES);
    }

    private static Map<String, Section> byProfile() {
        Map<String, Section> sections = Arrays.stream(values()).collect(Collectors.toMap(Coded::code, it -> it));
        Map<String, Section> byProfile = new LinkedHashMap<>();
        try (InputStream in = Objects.requireNonNull(Section.class.getResourceAsStream("sections.properties"))) {
            // Read by line, as the order of the lines is that of the columns.
            for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
                if (!line.isEmpty() && !line.startsWith("#")) {
                    String[] parts = line.split(" = ");
                    byProfile.put(parts[0], Objects.requireNonNull(sections.get(parts[1])));
                }
            }
            return byProfile;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
