package example.tamponade.fhir.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.fhir.conformance.mutants.Mutant;
import example.tamponade.fhir.conformance.mutants.Mutants;
import example.tamponade.fhir.conformance.mutants.Sources;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * The compiled profiles and the stock validator, the reference for FHIR R4, judge mutants of our resources alike. The seed
 * is another in each run; {@code -Dmutants.seed=}, {@code -Dmutants.count=} and {@code -Dmutants.folder=} (a folder of
 * converted cases) try others and more.
 */
class MutantsTest {

    private static final long SEED = Long.getLong("mutants.seed", System.nanoTime());
    private static final int COUNT = Integer.getInteger("mutants.count", 2000);
    private static final String FOLDER = System.getProperty("mutants.folder");

    // How a choice is written, and which of the repetitions: the two name the same element otherwise.
    private static String element(Problem problem) {
        return problem.expression()
                .replaceAll("\\.ofType\\([A-Za-z0-9]*\\)|\\[x]|\\[\\d+]", "")
                .replaceAll("^Bundle\\.entry\\.resource\\b", "")
                .replaceAll("^[A-Z]\\w*", "");
    }

    private record Verdicts(Mutant mutant, ConformanceReport stock, ConformanceReport compiled) {

        static Verdicts of(Mutant mutant) {
            return new Verdicts(
                    mutant,
                    Conformance.stock().check(mutant.json()),
                    Conformance.compiled().check(mutant.json()));
        }

        boolean agree() {
            return stock.passed() == compiled.passed()
                    || (stock.passed() && compiled.errors().stream().allMatch(KnownDifference::explains));
        }

        boolean bothRefuse() {
            return !stock.passed() && !compiled.passed();
        }

        boolean nameTheSameElement() {
            Set<String> elements =
                    stock.errors().stream().map(MutantsTest::element).collect(Collectors.toSet());
            return compiled.errors().stream().map(MutantsTest::element).anyMatch(elements::contains);
        }

        @Override
        public String toString() {
            return mutant.name() + "\n  stock: " + told(stock) + "\n  compiled: " + told(compiled);
        }

        private static String told(ConformanceReport report) {
            return report.passed()
                    ? "passes"
                    : report.errors().stream()
                            .map(it -> it.expression() + ": " + it.message())
                            .collect(Collectors.joining("; "));
        }
    }

    @Test
    void judgesMutantsAsTheStockValidatorDoes() {
        List<Mutant> mutants = Mutants.of(FOLDER == null ? Sources.all() : Sources.all(FOLDER), SEED, COUNT);
        List<Verdicts> all = mutants.parallelStream().map(Verdicts::of).toList();
        assertThat(all.stream().filter(it -> !it.agree())).as("seed " + SEED).isEmpty();
        List<Verdicts> refused = all.stream().filter(Verdicts::bothRefuse).toList();
        List<Verdicts> elsewhere =
                refused.stream().filter(it -> !it.nameTheSameElement()).toList();
        assertThat(elsewhere)
                .as("seed " + SEED + ", " + refused.size() + " refused")
                .hasSizeLessThanOrEqualTo(refused.size() / 20);
    }

    @Test
    void judgesResourcesTogetherAsTheStockValidatorDoes() {
        List<ResourceText> sound = Sources.all().stream()
                .map(it -> new ResourceText(
                        it.path("resourceType").asText() + "/" + it.path("id").asText(), it.toString()))
                .filter(it -> !it.name().startsWith("Bundle/"))
                .toList();
        assertThat(Conformance.compiled().checkTexts(sound).problems())
                .isEqualTo(Conformance.stock().checkTexts(sound).problems());
    }
}
