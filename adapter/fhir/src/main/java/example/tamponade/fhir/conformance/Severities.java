package example.tamponade.fhir.conformance;

import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.validation.SingleValidationMessage;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.jspecify.annotations.Nullable;

/** How much a message of the validator weighs for us. */
final class Severities {

    private static final Pattern UNKNOWN_EXTENSION = Pattern.compile("^Unknown extension (\\S+)$");

    // Warnings that say nothing about the record.
    private static final List<Pattern> EXPECTED = List.of(
            // Software makes derived values, and R4 has Observation.device for that; who observed something at the
            // bedside is asked for by its profile.
            Pattern.compile("all observations should have a performer"),
            // UCUM has no unit for a count, a ratio of like quantities or a tablet; the profiles fix these annotations.
            Pattern.compile("annotations like \\{(count|ratio|tablet)\\}"));

    private final Set<String> ourHomes;

    private Severities(Set<String> ourHomes) {
        this.ourHomes = ourHomes;
    }

    /** Judges by the definitions of the package. */
    static Severities with(IValidationSupport support) {
        List<StructureDefinition> ours = Objects.requireNonNull(support.fetchAllNonBaseStructureDefinitions());
        return new Severities(ours.stream()
                .map(it -> home(it.getUrl()))
                .filter(it -> !it.startsWith("http://hl7.org/"))
                .collect(Collectors.toUnmodifiableSet()));
    }

    /** The weight; null when there is nothing to say. */
    Problem.@Nullable Severity of(SingleValidationMessage message) {
        return switch (message.getSeverity()) {
            case ERROR, FATAL -> Problem.Severity.ERROR;
            case WARNING -> isExpected(message.getMessage()) ? null : Problem.Severity.WARNING;
            case INFORMATION -> isMisspelt(message.getMessage()) ? Problem.Severity.ERROR : null;
        };
    }

    private static boolean isExpected(String message) {
        return EXPECTED.stream().anyMatch(it -> it.matcher(message).find());
    }

    // FHIR lets unknown extensions pass; one at an address of ours that the package does not define is a misspelling.
    private boolean isMisspelt(String message) {
        Matcher extension = UNKNOWN_EXTENSION.matcher(message);
        return extension.find() && ourHomes.contains(home(extension.group(1)));
    }

    private static String home(String url) {
        return url.substring(0, url.lastIndexOf('/') + 1);
    }
}
