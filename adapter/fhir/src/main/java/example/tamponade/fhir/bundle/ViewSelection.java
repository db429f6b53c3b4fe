package example.tamponade.fhir.bundle;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.util.ResourceReferenceInfo;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/** What of a case stands in a view. */
final class ViewSelection {

    private static final FhirContext FHIR = FhirContext.forR4Cached();

    private final Excerpt excerpt;
    private final CaseView view;
    private final String base;
    private final List<Resource> all;
    private final Set<Instant> changes;

    private ViewSelection(Excerpt excerpt, String base, List<Resource> all) {
        this.excerpt = excerpt;
        this.view = excerpt.view();
        this.base = base;
        this.all = all;
        this.changes = StateChanges.of(all);
    }

    /**
     * The resources of the excerpt, in order. What they point to and is not among them is named by its address alone.
     *
     * @param base what the address of each resource begins with
     * @param all every resource of the case in the order of time
     */
    static List<Resource> of(Excerpt excerpt, String base, List<Resource> all) {
        return excerpt.isAll() ? all : new ViewSelection(excerpt, base, all).selected();
    }

    private List<Resource> selected() {
        Set<String> chosen = all.stream()
                .collect(Collectors.groupingBy(Profiles::of, LinkedHashMap::new, Collectors.toList()))
                .entrySet()
                .stream()
                .flatMap(it -> chosen(ViewRule.of(it.getKey(), view), it.getValue()).stream())
                .map(ViewSelection::address)
                .collect(Collectors.toSet());
        addNamed(chosen);
        if (!excerpt.types().isEmpty()) {
            chosen.removeIf(it -> !excerpt.types().contains(it.substring(0, it.indexOf('/'))));
        }
        all.stream()
                .map(ViewSelection::address)
                .filter(excerpt.there()::contains)
                .forEach(chosen::add);
        return all.stream()
                .filter(it -> chosen.contains(address(it)))
                .map(it -> closed(it, chosen))
                .toList();
    }

    private List<Resource> chosen(ViewRule rule, List<Resource> ofProfile) {
        return switch (rule) {
            case ALL -> ofProfile;
            case CHANGES -> atChanges(standing(ofProfile));
            case LATEST -> latest(standing(ofProfile));
            case OPEN -> ofProfile.stream().filter(ViewSelection::isOpen).toList();
            case NAMED, NONE -> List.of();
        };
    }

    private static List<Resource> standing(List<Resource> resources) {
        return resources.stream().filter(it -> !Profiles.isEnteredInError(it)).toList();
    }

    private static boolean isOpen(Resource resource) {
        return resource instanceof Flag flag && flag.getStatus() == Flag.FlagStatus.ACTIVE;
    }

    private List<Resource> atChanges(List<Resource> values) {
        Map<String, Resource> kept = new LinkedHashMap<>();
        for (Resource value : values) {
            Instant time = Chronology.time(value);
            // The last of each hour is what stood when the hour was over.
            kept.put(code(value) + " in " + time.truncatedTo(ChronoUnit.HOURS), value);
            if (changes.contains(time)) {
                kept.put(code(value) + " at " + time, value);
            }
        }
        return List.copyOf(new HashSet<>(kept.values()));
    }

    private static List<Resource> latest(List<Resource> values) {
        Map<String, Resource> latest = new LinkedHashMap<>();
        values.forEach(it -> latest.put(code(it), it));
        return List.copyOf(latest.values());
    }

    // Of infusions each line is followed for itself.
    private static String code(Resource resource) {
        return resource instanceof Observation observation
                ? observation.getCode().getText()
                : Profiles.of(resource) + " " + Profiles.lineOf(resource);
    }

    // Who recorded, where, and whatever those name in turn.
    private void addNamed(Set<String> chosen) {
        Map<String, Resource> byAddress = new HashMap<>();
        all.forEach(it -> byAddress.put(address(it), it));
        List<String> open = new ArrayList<>(chosen);
        while (!open.isEmpty()) {
            Resource resource = Objects.requireNonNull(byAddress.get(open.remove(open.size() - 1)));
            for (ResourceReferenceInfo info : references(resource)) {
                String target =
                        info.getResourceReference().getReferenceElement().getValue();
                Resource named = byAddress.get(target);
                if (named != null && ViewRule.of(Profiles.of(named), view) == ViewRule.NAMED && chosen.add(target)) {
                    open.add(target);
                }
            }
        }
    }

    private Resource closed(Resource resource, Set<String> chosen) {
        boolean whole = references(resource).stream().allMatch(it -> isChosen(it, chosen));
        if (whole) {
            return resource;
        }
        Resource copy = resource.copy();
        references(copy).stream().filter(it -> !isChosen(it, chosen)).forEach(it -> {
            Reference reference = (Reference) it.getResourceReference();
            String target = reference.getReference();
            reference.setReference(null);
            reference.setType(target.substring(0, target.indexOf('/')));
            reference.setIdentifier(
                    new Identifier().setSystem("urn:ietf:rfc:3986").setValue(base + "/" + target));
        });
        return copy;
    }

    private static boolean isChosen(ResourceReferenceInfo info, Set<String> chosen) {
        String target = info.getResourceReference().getReferenceElement().getValue();
        return target == null || chosen.contains(target);
    }

    private static List<ResourceReferenceInfo> references(Resource resource) {
        return FHIR.newTerser().getAllResourceReferences(resource);
    }

    private static String address(Resource resource) {
        return resource.fhirType() + "/" + resource.getIdPart();
    }
}
