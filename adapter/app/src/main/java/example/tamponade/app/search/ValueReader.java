package example.tamponade.app.search;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.rest.param.ParameterUtil;
import ca.uhn.fhir.rest.param.TokenParam;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.IdType;
import org.jspecify.annotations.Nullable;

/** Reads the values of a search parameter, by what they are. */
final class ValueReader {

    private final String base;

    /** Reads for a server at that address. */
    ValueReader(String base) {
        this.base = base;
    }

    /**
     * Understands a parameter.
     *
     * @param place what the values were given for
     * @param modifier for example {@code not}; null: none
     * @param texts its values, of which one must be
     * @throws SearchRefusedException when they are not of its kind
     */
    Criterion criterion(SearchParameter parameter, String place, @Nullable String modifier, List<String> texts) {
        if ("missing".equals(modifier)) {
            return new Criterion.Missing(parameter, truth(place, texts));
        }
        return switch (parameter.kind()) {
            case TOKEN -> token(parameter, place, modifier, texts);
            case REFERENCE -> reference(parameter, place, modifier, texts);
            case DATE -> {
                demandNone(place, modifier);
                yield new Criterion.Times(
                        parameter,
                        texts.stream().map(it -> TimeLimit.of(place, it)).toList());
            }
            case URI -> {
                demandNone(place, modifier);
                yield new Criterion.Values(
                        parameter,
                        texts.stream()
                                .map(it -> new Criterion.Value("", ParameterUtil.unescape(it)))
                                .toList(),
                        true);
            }
        };
    }

    private static boolean truth(String place, List<String> texts) {
        if (texts.size() == 1 && List.of("true", "false").contains(texts.get(0))) {
            return texts.get(0).equals("true");
        }
        throw new SearchRefusedException(place + ": say true or false");
    }

    private static void demandNone(String place, @Nullable String modifier) {
        if (modifier != null) {
            throw new SearchRefusedException(place + ": no modifier ':" + modifier + "' there; use :missing or none");
        }
    }

    private static Criterion token(
            SearchParameter parameter, String place, @Nullable String modifier, List<String> texts) {
        if ("in".equals(modifier)) {
            return new Criterion.Values(
                    parameter,
                    texts.stream()
                            .flatMap(it -> ValueSets.standard().values(place, it).stream())
                            .toList(),
                    true);
        }
        boolean isNot = "not".equals(modifier);
        if (!isNot && modifier != null) {
            throw new SearchRefusedException(
                    place + ": no modifier ':" + modifier + "' there; use :not, :in, :missing or none");
        }
        return new Criterion.Values(
                parameter, texts.stream().map(it -> tokenValue(place, it)).toList(), !isNot);
    }

    private static Criterion.Value tokenValue(String place, String text) {
        TokenParam token = new TokenParam();
        token.setValueAsQueryToken(FhirContext.forR4Cached(), place, null, text);
        boolean isOfSystem = token.getSystem() != null && !token.getSystem().isEmpty();
        if (token.isEmpty() && !isOfSystem) {
            throw new SearchRefusedException(place + ": '" + text + "'; write system|code, system| or code");
        }
        String code = token.getValue();
        return new Criterion.Value(token.getSystem(), code == null || code.isEmpty() ? null : code);
    }

    private Criterion reference(
            SearchParameter parameter, String place, @Nullable String modifier, List<String> texts) {
        String type = modifier == null ? parameter.target() : modifier;
        List<Criterion.Value> values =
                texts.stream().map(it -> referenceValue(place, type, it)).toList();
        return new Criterion.Values(parameter, values, true);
    }

    private Criterion.Value referenceValue(String place, String type, String text) {
        String local = text.startsWith(base + "/") ? text.substring(base.length() + 1) : text;
        IdType reference = new IdType(local);
        String id = reference.getIdPart();
        boolean isOurs = Stream.of(id, local).allMatch(it -> it != null && !it.isEmpty()) && !reference.isAbsolute();
        if (!isOurs) {
            throw new SearchRefusedException(
                    place + ": '" + text + "' is no resource here; write for example Patient/1, or the id alone");
        }
        String named = reference.hasResourceType() ? reference.getResourceType() : type;
        // What is of another type than the parameter refers to is never found.
        return new Criterion.Value(named.isEmpty() ? null : named, type.isEmpty() || named.equals(type) ? id : "");
    }
}
