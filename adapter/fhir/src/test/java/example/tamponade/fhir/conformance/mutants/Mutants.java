package example.tamponade.fhir.conformance.mutants;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** Makes mutants of resources: each kind of change at each kind of place before any comes again. */
public final class Mutants {

    private static final ObjectMapper JSON = new ObjectMapper()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .setNodeFactory(JsonNodeFactory.withExactBigDecimals(true));

    private final List<ObjectNode> sources;
    private final Random random;

    private Mutants(List<ObjectNode> sources, long seed) {
        this.sources = sources;
        this.random = new Random(seed);
    }

    /** So many mutants of the sources; the same seed gives the same. */
    public static List<Mutant> of(List<ObjectNode> sources, long seed, int count) {
        return new Mutants(sources, seed).make(count);
    }

    /** A resource as JSON whose numbers keep their digits. */
    public static ObjectNode read(String json) {
        try {
            return (ObjectNode) JSON.readTree(json);
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException(json, e);
        }
    }

    private record Candidate(int source, int place, Mutation mutation) {}

    private List<Mutant> make(int count) {
        List<List<Candidate>> groups = new ArrayList<>(groups().values());
        Collections.shuffle(groups, random);
        List<Mutant> mutants = new ArrayList<>();
        while (mutants.size() < count) {
            for (List<Candidate> group : groups) {
                if (mutants.size() < count) {
                    mutants.add(mutant(group.get(random.nextInt(group.size()))));
                }
            }
        }
        return mutants;
    }

    // By profile, element and kind of change.
    private Map<String, List<Candidate>> groups() {
        Map<String, List<Candidate>> groups = new LinkedHashMap<>();
        List<Mutation> mutations = Mutation.all();
        for (int i = 0; i < sources.size(); i++) {
            String profile = profile(sources.get(i));
            List<Place> places = Place.all(sources.get(i));
            for (int k = 0; k < places.size(); k++) {
                for (Mutation mutation : mutations) {
                    Place place = places.get(k);
                    if (mutation.fits().test(place)) {
                        groups.computeIfAbsent(
                                        profile + " " + place.pattern() + " " + mutation.name(),
                                        key -> new ArrayList<>())
                                .add(new Candidate(i, k, mutation));
                    }
                }
            }
        }
        return groups;
    }

    private Mutant mutant(Candidate candidate) {
        ObjectNode mutant = sources.get(candidate.source()).deepCopy();
        Place place = Place.all(mutant).get(candidate.place());
        candidate.mutation().change().accept(place, random);
        String name = profile(sources.get(candidate.source())) + " "
                + candidate.mutation().name() + " at " + place.path();
        return new Mutant(name, candidate.mutation().name(), mutant.toString());
    }

    private static String profile(JsonNode resource) {
        String profile = resource.at("/meta/profile/0")
                .asText(resource.path("resourceType").asText());
        return profile.substring(profile.lastIndexOf('/') + 1);
    }
}
