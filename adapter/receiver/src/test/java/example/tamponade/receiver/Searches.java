package example.tamponade.receiver;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.RuntimeSearchParam;
import ca.uhn.fhir.fhirpath.IFhirPath;
import ca.uhn.fhir.rest.client.api.IGenericClient;
import ca.uhn.fhir.rest.client.api.ServerValidationModeEnum;
import ca.uhn.fhir.rest.client.interceptor.BasicAuthInterceptor;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.hl7.fhir.instance.model.api.IBase;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestResourceComponent;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.PrimitiveType;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/** The same searches at two servers, in the words of HAPI's client; what to search for is read by HAPI's FHIRPath. */
final class Searches {

    private static final FhirContext FHIR = FhirContext.forR4Cached();
    private static final int VALUES = 2;
    private static final List<String> PREFIXES = List.of("", "eq", "ne", "gt", "lt", "ge", "le", "sa", "eb");

    private final IFhirPath paths = FHIR.newFhirPath();
    private final IGenericClient ours;
    private final IGenericClient theirs;
    private final List<String> differences = new ArrayList<>();
    private int asked;

    /**
     * Asks both.
     *
     * @param login who asks ours: a user and a password, with a colon between
     */
    Searches(String ours, String login, String theirs) {
        FHIR.getRestfulClientFactory().setServerValidationMode(ServerValidationModeEnum.NEVER);
        FHIR.getRestfulClientFactory().setSocketTimeout(60_000);
        this.ours = FHIR.newRestfulGenericClient(ours);
        this.ours.registerInterceptor(new BasicAuthInterceptor(login));
        this.theirs = FHIR.newRestfulGenericClient(theirs);
    }

    List<String> patients() {
        return all(ours, "Patient?").stream().map(Resource::getIdPart).toList();
    }

    /** Every search that finds something else at one server than at the other. */
    List<String> differences(List<String> patients) {
        CapabilityStatement statement =
                ours.capabilities().ofType(CapabilityStatement.class).execute();
        for (CapabilityStatementRestResourceComponent type :
                statement.getRestFirstRep().getResource()) {
            boolean isSearched = type.getInteraction().stream()
                    .anyMatch(it -> it.getCode() == CapabilityStatement.TypeRestfulInteraction.SEARCHTYPE);
            // What is not on record, but made of it, has no versions.
            if (!isSearched || !type.getReadHistory()) {
                continue;
            }
            boolean isOfAPatient =
                    type.getSearchParam().stream().anyMatch(it -> it.getName().equals("patient"));
            if (isOfAPatient) {
                patients.forEach(it -> compare(type, "patient=" + it));
            } else {
                compare(type, "");
            }
        }
        patients.forEach(it -> {
            compareAll("Observation?patient=" + it + "&_include=Observation:derived-from", Set.of());
            compareAll("Observation?patient=" + it + "&code=8867-4&_revinclude=Provenance:target", Set.of());
            compareAll("Procedure?subject:Patient.gender=female&patient=" + it, Set.of());
        });
        return differences;
    }

    /** How many searches were compared. */
    int asked() {
        return asked;
    }

    private void compare(CapabilityStatementRestResourceComponent type, String base) {
        List<Resource> known = all(ours, type.getType() + "?" + base);
        Set<String> ids = new TreeSet<>(known.stream().map(Searches::name).toList());
        for (CapabilityStatement.CapabilityStatementRestResourceSearchParamComponent parameter :
                type.getSearchParam()) {
            RuntimeSearchParam definition =
                    FHIR.getResourceDefinition(type.getType()).getSearchParam(parameter.getName());
            if (definition == null || parameter.getName().startsWith("_")) {
                continue;
            }
            for (String value : values(definition, known)) {
                compareAll(
                        type.getType() + "?" + (base.isEmpty() ? "" : base + "&") + parameter.getName() + "=" + value,
                        ids);
            }
        }
    }

    private void compareAll(String search, Set<String> among) {
        asked++;
        Set<String> here = names(all(ours, search));
        Set<String> there = names(all(theirs, search));
        if (!among.isEmpty()) {
            there.retainAll(among);
        }
        if (!here.equals(there)) {
            Set<String> missing = new TreeSet<>(there);
            missing.removeAll(here);
            here.removeAll(there);
            differences.add(search + ": only here " + here.stream().limit(3).toList() + " of " + here.size()
                    + ", only there " + missing.stream().limit(3).toList() + " of " + missing.size());
        }
    }

    private Set<String> values(RuntimeSearchParam definition, List<Resource> known) {
        String path = definition.getPath().replaceAll("\\.where\\(resolve\\(\\) is \\w+\\)", "");
        Set<String> values = new LinkedHashSet<>();
        for (Resource resource : known) {
            for (IBase value : paths.evaluate(resource, path, IBase.class)) {
                words((Base) value).forEach(it -> values.add(URLEncoder.encode(it, StandardCharsets.UTF_8)));
            }
            if (values.size() >= VALUES) {
                break;
            }
        }
        return values;
    }

    private static Stream<String> words(Base value) {
        if (value instanceof CodeableConcept concept) {
            return concept.getCoding().stream().flatMap(Searches::words);
        }
        if (value instanceof Coding coding) {
            return Stream.of(coding.getSystem() + "|" + coding.getCode(), coding.getCode(), coding.getSystem() + "|");
        }
        if (value instanceof Identifier identifier) {
            return Stream.of(identifier.getSystem() + "|" + identifier.getValue());
        }
        if (value instanceof Reference reference) {
            return reference.hasReference() ? Stream.of(reference.getReference()) : Stream.of();
        }
        if (value instanceof Period period) {
            return Stream.of(period.getStartElement(), period.getEndElement()).flatMap(Searches::words);
        }
        if (value instanceof BaseDateTimeType time) {
            return time.getValue() == null ? Stream.of() : PREFIXES.stream().map(it -> it + time.getValueAsString());
        }
        return value instanceof PrimitiveType<?> primitive ? Stream.of(primitive.getValueAsString()) : Stream.of();
    }

    private static List<Resource> all(IGenericClient client, String search) {
        List<Resource> found = new ArrayList<>();
        Bundle page = client.search()
                .byUrl(search + (search.endsWith("?") ? "" : "&") + "_count=500")
                .returnBundle(Bundle.class)
                .execute();
        while (true) {
            page.getEntry().forEach(it -> found.add(it.getResource()));
            if (page.getLink("next") == null) {
                return found;
            }
            page = client.loadPage().next(page).execute();
        }
    }

    private static Set<String> names(List<Resource> resources) {
        return new TreeSet<>(resources.stream().map(Searches::name).toList());
    }

    private static String name(Resource resource) {
        return resource.fhirType() + "/" + resource.getIdPart();
    }
}
