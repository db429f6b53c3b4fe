package example.tamponade.fhir.bundle;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.pseudonym.PseudonymKey;
import example.tamponade.fhir.pseudonym.PseudonymisedCase;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import example.tamponade.fhir.terms.Terms;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Resource;

/**
 * A case in one bundle. The resources are taken as they are: each is addressed as {@code <base>/<type>/<id>}, so that
 * their relative references lead to one another. Safe for several threads.
 */
public final class CaseBundles {

    private final Terms terms;
    private final CaseMapper mapper;

    /**
     * Bundles what this mapper makes of a case.
     *
     * @param terms the code systems
     * @param mapper names what a case has once
     */
    public CaseBundles(Terms terms, CaseMapper mapper) {
        this.terms = terms;
        this.mapper = mapper;
    }

    /**
     * What a view holds of a case.
     *
     * @param onRecord every resource of the case as it is on record, in any order
     * @return those of the view in the order of time; what they point to and is not among them is named by its address
     */
    public List<Resource> view(CaseView view, List<Resource> onRecord) {
        return excerpt(Excerpt.of(view), onRecord);
    }

    /**
     * What somebody gets of a case.
     *
     * @param onRecord every resource of the case as it is on record, in any order
     * @return those of the excerpt in the order of time; what they point to and is not among them is named by its address
     */
    public List<Resource> excerpt(Excerpt excerpt, List<Resource> onRecord) {
        return ViewSelection.of(excerpt, terms.base(), Chronology.sorted(onRecord));
    }

    /**
     * A view of the case as a document, dated with the latest recording in the case. The first entry is the Composition; it
     * is preliminary while the case is open.
     *
     * @param file the case file, up to the same event as the resources
     * @param resources what the view holds
     * @throws IllegalArgumentException when the case has no event
     */
    public Bundle document(CaseFile file, CaseView view, List<Resource> resources) {
        return document(head(file, view), file, view, resources);
    }

    /**
     * A view of the case as a document for those who need not know whose case it is.
     *
     * @param onRecord every resource of the case
     * @throws IllegalArgumentException when the case has no event
     */
    public Bundle pseudonymised(CaseFile file, CaseView view, List<Resource> onRecord, Pseudonymiser pseudonymiser) {
        PseudonymisedCase others = pseudonymiser.of("case/" + file.caseId(), onRecord);
        CaseDocument.Head head = head(file, view);
        CaseDocument.Head theirs = new CaseDocument.Head(
                others.id(head.id()),
                others.id(head.composition()),
                others.id(head.encounter()),
                others.id(head.custodian()),
                CaseDocument.title(view) + ", pseudonymised, times moved",
                head.isOpen(),
                others.time(head.latest()));
        return document(theirs, file, view, others.of(view(view, onRecord)));
    }

    /** The system of the tag that carries a resource's id where a receiver gives its own and there is no identifier. */
    public String resourceTag() {
        return terms.base() + "/identifier/resource";
    }

    /** Makes the pseudonymised form of cases with that key. */
    public Pseudonymiser pseudonymiser(PseudonymKey key) {
        return new Pseudonymiser(key, terms.base());
    }

    private CaseDocument.Head head(CaseFile file, CaseView view) {
        String suffix = view == CaseView.FULL ? "" : "/" + view.code();
        return new CaseDocument.Head(
                mapper.idOfCase(file, "document" + suffix),
                // The whole document can be asked for by the id of its case.
                mapper.idOfCase(file, view == CaseView.FULL ? "episode" : "composition" + suffix),
                mapper.idOfCase(file, "encounter"),
                mapper.idOfOrganization(file.caseId().facilityId()),
                CaseDocument.title(view) + " " + file.caseId().number() + " of "
                        + file.caseId().facilityId(),
                file.closedAt() == null,
                latestRecording(file));
    }

    private Bundle document(CaseDocument.Head head, CaseFile file, CaseView view, List<Resource> resources) {
        if (resources.isEmpty()) {
            throw noEvent(file);
        }
        Bundle bundle = bundle("case-bundle", Bundle.BundleType.DOCUMENT, file, head.latest(), resources);
        bundle.setId(head.id());
        add(bundle, mapper.labelled(new CaseDocument(terms).composition(head, view, resources), file));
        resources.forEach(it -> add(bundle, it));
        return bundle;
    }

    /**
     * These resources as a transaction that puts each at its own address, so that sending it twice changes nothing. It is
     * dated with the latest recording that it knows of.
     *
     * @param file the events that the resources tell of
     */
    public Bundle transaction(CaseFile file, List<Resource> resources) {
        Bundle bundle =
                bundle("case-transaction", Bundle.BundleType.TRANSACTION, file, latestRecording(file), resources);
        resources.forEach(it ->
                add(bundle, it).getRequest().setMethod(Bundle.HTTPVerb.PUT).setUrl(reference(it)));
        return bundle;
    }

    /**
     * These resources, of no case in particular, as a transaction that puts each at its own address.
     *
     * @param etags the version that a resource ({@code Type/id}) is to replace, where it is known
     */
    public Bundle puts(List<Resource> resources, Map<String, String> etags) {
        Bundle bundle = new Bundle().setType(Bundle.BundleType.TRANSACTION);
        resources.stream()
                .filter(CaseBundles::isRestricted)
                .limit(1)
                .forEach(it -> bundle.getMeta().setSecurity(it.getMeta().getSecurity()));
        for (Resource resource : resources) {
            add(bundle, resource)
                    .getRequest()
                    .setMethod(Bundle.HTTPVerb.PUT)
                    .setUrl(reference(resource))
                    .setIfMatch(etags.get(reference(resource)));
        }
        return bundle;
    }

    /** Whether the resource names a mother who refused that her record is shared. */
    public static boolean isRestricted(Resource resource) {
        return resource.getMeta().hasSecurity();
    }

    /** These resources as a collection, each at its own address. */
    public Bundle collection(List<Resource> resources) {
        Bundle bundle = new Bundle().setType(Bundle.BundleType.COLLECTION);
        resources.forEach(it -> add(bundle, it));
        return bundle;
    }

    // Named by its content: another state of the case is another bundle.
    private Bundle bundle(
            String profile, Bundle.BundleType type, CaseFile file, OffsetDateTime latest, List<Resource> resources) {
        Bundle bundle = new Bundle();
        bundle.getMeta().addProfile(terms.profile(profile));
        bundle.setIdentifier(new Identifier()
                .setSystem("urn:ietf:rfc:3986")
                .setValue("urn:uuid:" + mapper.idOfContent(digest(resources))));
        bundle.setTimestampElement(new InstantType(DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(latest)));
        return mapper.labelled(bundle.setType(type), file);
    }

    private static String digest(List<Resource> resources) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            for (Resource resource : resources) {
                String json = FhirContext.forR4Cached().newJsonParser().encodeResourceToString(resource);
                digest.update(json.getBytes(StandardCharsets.UTF_8));
            }
            return HexFormat.of().formatHex(digest.digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every JDK has SHA-256", e);
        }
    }

    private Bundle.BundleEntryComponent add(Bundle bundle, Resource resource) {
        return bundle.addEntry()
                .setFullUrl(terms.base() + "/" + reference(resource))
                .setResource(resource);
    }

    private static String reference(Resource resource) {
        return resource.fhirType() + "/" + resource.getIdPart();
    }

    private static OffsetDateTime latestRecording(CaseFile file) {
        Stream<EventEnvelope> standing = file.entries().stream().map(CaseEntry::event);
        Stream<EventEnvelope> withdrawn =
                file.withdrawn().stream().flatMap(it -> Stream.of(it.event(), it.retraction()));
        return Stream.concat(standing, withdrawn)
                .map(EventEnvelope::recordedAt)
                .max(Comparator.comparing(OffsetDateTime::toInstant)
                        .thenComparing(it -> it.getOffset().getTotalSeconds()))
                .orElseThrow(() -> noEvent(file));
    }

    private static IllegalArgumentException noEvent(CaseFile file) {
        return new IllegalArgumentException("case " + file.caseId() + " has no event");
    }
}
