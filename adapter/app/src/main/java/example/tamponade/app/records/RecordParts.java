package example.tamponade.app.records;

import example.tamponade.fhir.bundle.CaseBundles;
import example.tamponade.fhir.conformance.Conformance;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.refusal.Refusals;
import example.tamponade.fhir.site.Site;
import example.tamponade.fhir.site.SiteProblem;
import example.tamponade.fhir.terms.Terms;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Everything between a folded case and its FHIR form.
 *
 * @param mapper makes the resources
 * @param bundles puts them together
 * @param conformance holds them to their profiles
 * @param refusals tells refusals in FHIR
 * @param site writes resources as the site wants them
 */
public record RecordParts(
        CaseMapper mapper, CaseBundles bundles, Conformance conformance, Refusals refusals, Site site) {

    private static final Logger LOG = LoggerFactory.getLogger(RecordParts.class);

    /** The version of this software, as the resources name it. */
    public static final String SOFTWARE_VERSION = "0.1.0";

    /** The parts; built at the first call, which takes seconds, and shared from then on. */
    public static RecordParts shared() {
        return Holder.PARTS;
    }

    /**
     * The parts with what a site adds.
     *
     * @param cache a folder where what takes seconds to make is kept; null: it is made anew
     * @param problems is told what the site's packages refuse
     * @throws IOException when a file is not readable
     */
    public static RecordParts of(
            List<Path> packages, @Nullable Path adaptation, @Nullable Path cache, Consumer<SiteProblem> problems)
            throws IOException {
        RecordParts parts = shared();
        if (packages.isEmpty() && adaptation == null) {
            return parts;
        }
        Site site = Site.read(packages, adaptation, cache, Terms.read(), problems);
        String slower = site.conformance().slowerBecause();
        if (slower != null) {
            LOG.warn("resources are checked by the validator library, which is slower: {}", slower);
        }
        return new RecordParts(parts.mapper, parts.bundles, site.conformance(), parts.refusals, site);
    }

    private static RecordParts build() {
        Terms terms = Terms.read();
        CaseMapper mapper = new CaseMapper(terms, SOFTWARE_VERSION);
        return new RecordParts(
                mapper, new CaseBundles(terms, mapper), Conformance.compiled(), new Refusals(terms), Site.none());
    }

    private static final class Holder {

        private static final RecordParts PARTS = build();
    }
}
