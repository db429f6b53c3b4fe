package example.tamponade.app.search;

import ca.uhn.fhir.rest.api.QualifiedParamList;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Understands a search: FHIR R4, <a href="http://hl7.org/fhir/R4/search.html">Search</a>. What is not understood is refused:
 * a search that leaves out a condition finds what was not asked for.
 */
public final class SearchRequestReader {

    private static final Pattern NAME =
            Pattern.compile("(?<name>[\\w-]{1,64})(:(?<modifier>[\\w-]{1,64}))?(\\.(?<chain>[\\w-]{1,64}))?");

    /** Parameters of how the answer is written, which others look after. */
    private static final Set<String> OF_THE_ANSWER = Set.of("_format", "_pretty", "_elements");

    private static final int MOST_VALUES = 200;
    private static final int MOST_INCLUDES = 20;

    private final String type;
    private final ValueReader values;
    private final boolean isLenient;
    private final List<Criterion> criteria = new ArrayList<>();
    private final List<Include> included = new ArrayList<>();
    private final List<Include> referring = new ArrayList<>();
    private final List<String> ignored = new ArrayList<>();
    private int valuesRead;
    private Sort sort = Sort.BY_ID;
    private int count = SearchRequest.USUAL_COUNT;
    private boolean isCounted;
    private @Nullable Cursor after;

    private SearchRequestReader(String type, String base, boolean isLenient) {
        this.type = type;
        this.values = new ValueReader(base);
        this.isLenient = isLenient;
    }

    /**
     * Reads a search.
     *
     * @param type which resources are searched
     * @param parameters the parameters of the request
     * @param base address of this server, which references may begin with
     * @param isLenient whether parameters that are not known are left out, and named, and not refused
     * @throws SearchRefusedException when it cannot be done as it is
     */
    public static SearchRequest read(
            String type, Map<String, List<String>> parameters, String base, boolean isLenient) {
        SearchRequestReader reader = new SearchRequestReader(type, base, isLenient);
        new TreeMap<>(parameters).forEach((name, texts) -> texts.forEach(it -> reader.read(name, it)));
        return new SearchRequest(
                type,
                List.copyOf(reader.criteria),
                reader.sort,
                reader.count,
                reader.isCounted,
                List.copyOf(reader.included),
                List.copyOf(reader.referring),
                reader.after,
                List.copyOf(reader.ignored));
    }

    private void read(String name, String text) {
        if (name.indexOf(0) >= 0 || text.indexOf(0) >= 0) {
            throw new SearchRefusedException(name.replace("\0", "") + ": no text has a character of number 0");
        }
        if (OF_THE_ANSWER.contains(name)) {
            return;
        }
        switch (name) {
            case "_count" -> count = number(text);
            case "_sort" -> sort = Sort.of(type, text);
            case "_total" -> isCounted = total(text);
            case "_summary" -> summary(text);
            case "_include" -> add(included, name, text);
            case "_revinclude" -> add(referring, name, text);
            case SearchRequest.AFTER -> after = Cursor.of(text);
            default -> readCriterion(name, text);
        }
    }

    private static int number(String text) {
        if (!text.matches("\\d{1,9}")) {
            throw new SearchRefusedException("_count: '" + text + "' is no number of resources");
        }
        return Math.min(Integer.parseInt(text), SearchRequest.GREATEST_COUNT);
    }

    private static boolean total(String text) {
        return switch (text) {
            case "accurate" -> true;
            case "none", "estimate" -> false;
            default -> throw new SearchRefusedException("_total: '" + text + "'; use accurate or none");
        };
    }

    private void summary(String text) {
        if (text.equals("count")) {
            count = 0;
        }
    }

    private static void add(List<Include> includes, String place, String text) {
        if (includes.size() == MOST_INCLUDES) {
            throw new SearchRefusedException(place + ": more than " + MOST_INCLUDES + "; ask for less at once");
        }
        includes.add(Include.of(place, text));
    }

    private void readCriterion(String name, String text) {
        Matcher matcher = NAME.matcher(name);
        if (!matcher.matches()) {
            refuseOrIgnore(name);
            return;
        }
        if (matcher.group("chain") != null) {
            readChain(name, matcher, text);
        } else {
            Criterion criterion = criterion(type, name, matcher.group("name"), matcher.group("modifier"), text);
            if (criterion != null) {
                criteria.add(criterion);
            }
        }
    }

    private void readChain(String place, Matcher matcher, String text) {
        SearchParameter parameter = SearchParameters.standard().of(type).get(matcher.group("name"));
        if (parameter == null) {
            refuseOrIgnore(place);
            return;
        }
        String modifier = matcher.group("modifier");
        String target = modifier == null ? parameter.target() : modifier;
        if (parameter.kind() != SearchParameter.Kind.REFERENCE
                || !SearchParameters.standard().types().contains(target)) {
            throw new SearchRefusedException(
                    place + ": name the type of what is referred to, for example" + " subject:Patient.identifier");
        }
        Criterion criterion = criterion(target, place, matcher.group("chain"), null, text);
        if (criterion != null) {
            criteria.add(new Criterion.Referred(parameter, target, criterion));
        }
    }

    private @Nullable Criterion criterion(
            String ofType, String place, String name, @Nullable String modifier, String text) {
        List<String> texts = QualifiedParamList.splitQueryStringByCommasIgnoreEscape(null, text);
        demandFew(texts, place);
        SearchParameter parameter = SearchParameters.standard().of(ofType).get(name);
        if (parameter != null) {
            return values.criterion(parameter, place, modifier, texts);
        }
        if (modifier == null && name.equals("_id")) {
            return new Criterion.Ids(texts);
        }
        if (modifier == null && name.equals("_lastUpdated")) {
            return new Criterion.Updated(
                    texts.stream().map(it -> TimeLimit.of(place, it)).toList());
        }
        refuseOrIgnore(place);
        return null;
    }

    private void demandFew(List<String> texts, String place) {
        if (texts.isEmpty()) {
            throw new SearchRefusedException(place + ": no value; leave the parameter out, or use :missing=true");
        }
        valuesRead += texts.size();
        if (valuesRead > MOST_VALUES) {
            throw new SearchRefusedException("more than " + MOST_VALUES + " values; search in several parts");
        }
    }

    private void refuseOrIgnore(String name) {
        if (!isLenient) {
            throw new SearchRefusedException("no search of " + type + " by '" + name + "'; it has _id, _lastUpdated, "
                    + String.join(", ", SearchParameters.standard().of(type).keySet())
                    + "; with the header Prefer: handling=lenient what is not known is left out");
        }
        ignored.add(name);
    }
}
