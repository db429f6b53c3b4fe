package example.tamponade.app.intake;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.dialect.Dialect;
import com.networknt.schema.dialect.Dialects;
import com.networknt.schema.keyword.AnnotationKeyword;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;

/** What the published schema says against an event, in words for the sender. */
final class SchemaReasons {

    private final JsonNode source;
    private final Schema schema;

    SchemaReasons(JsonNode schema) {
        this.source = schema;
        Dialect dialect = Dialect.builder(Dialects.getDraft202012())
                .keyword(new AnnotationKeyword(Quantities.UNIT_ANNOTATION))
                .build();
        this.schema = SchemaRegistry.withDialect(dialect).getSchema(schema);
        this.schema.initializeValidators();
    }

    /** Every reason, ordered by place; empty when the event has the right shape. */
    List<Reason> of(JsonNode event) {
        List<Reason> reasons = new ArrayList<>();
        for (Error error : schema.validate(event)) {
            Reason reason = reason(error);
            // A time that is wholly wrong fails both of its patterns; one reason tells it.
            if (reasons.stream().noneMatch(it -> it.path().equals(reason.path()) && it.code() == reason.code())) {
                reasons.add(reason);
            }
        }
        return reasons;
    }

    private Reason reason(Error error) {
        String path = error.getInstanceLocation().toString();
        return switch (error.getKeyword()) {
            case "required" -> missing(path + "/" + error.getProperty());
            case "minProperties", "const" ->
                new Reason(ReasonCode.MISSING_PROPERTY, path, "nothing was measured", "send at least one measurement");
            case "additionalProperties" -> unknown(path + "/" + error.getProperty(), error);
            case "enum" -> notInList(path, error);
            case "type" -> wrongType(path, error);
            case "pattern" -> pattern(path, error);
            default -> invalid(path, error);
        };
    }

    private static Reason missing(String path) {
        return new Reason(ReasonCode.MISSING_PROPERTY, path, "the property is missing", "add it");
    }

    private Reason unknown(String path, Error error) {
        String keyword = error.getSchemaLocation().getFragment().toString();
        JsonNode known = source.at(keyword.substring(0, keyword.lastIndexOf('/')));
        return new Reason(
                ReasonCode.UNKNOWN_PROPERTY,
                path,
                "the vocabulary has no such property here",
                "remove it or check its spelling; " + names(known));
    }

    private static String names(JsonNode objectSchema) {
        return "known here: "
                + String.join(
                        ", ", new TreeSet<>(objectSchema.path("properties").propertyNames()));
    }

    private static Reason notInList(String path, Error error) {
        ReasonCode code = path.equals("/type") ? ReasonCode.UNKNOWN_TYPE : ReasonCode.NOT_IN_LIST;
        return new Reason(
                code, path, given(error) + " is not in the list", "use one of " + list(error.getSchemaNode(), ", "));
    }

    private static Reason wrongType(String path, Error error) {
        String wanted = list(error.getSchemaNode(), " or ");
        if (path.isEmpty()) {
            return new Reason(
                    ReasonCode.NOT_AN_OBJECT, path, "the line holds no event", "send one JSON object for each event");
        }
        return new Reason(
                ReasonCode.WRONG_TYPE,
                path,
                given(error) + " is not of type " + wanted,
                "send a JSON " + wanted + ", numbers without quotes");
    }

    private Reason pattern(String path, Error error) {
        if (error.getSchemaLocation().toString().contains("with-offset")) {
            return new Reason(
                    ReasonCode.TIME_WITHOUT_OFFSET,
                    path,
                    given(error) + " has no offset from UTC of at most 14 hours",
                    "add the offset of the bedside clock, for example +05:45 or Z");
        }
        return invalid(path, error);
    }

    private Reason invalid(String path, Error error) {
        if (error.getSchemaNode().isBoolean()) {
            return new Reason(
                    ReasonCode.INVALID_VALUE,
                    path,
                    "it cannot be given together with what else the event says",
                    "leave it out; a retraction has no type and no data, and a reading has a volume or weights");
        }
        return new Reason(
                ReasonCode.INVALID_VALUE, path, given(error) + " does not fit", "send what is asked: " + asked(error));
    }

    // The schema describes each kind of value with an example; the nearest description above the rule that failed.
    private String asked(Error error) {
        String place = error.getSchemaLocation().getFragment().toString();
        while (place.contains("/")) {
            place = place.substring(0, place.lastIndexOf('/'));
            JsonNode description = source.at(place).path("description");
            if (description.isString()) {
                return description.stringValue();
            }
        }
        return "see the published schema of bedside events";
    }

    private static String list(JsonNode values, String between) {
        return values.isArray()
                ? values.valueStream().map(JsonNode::asString).collect(Collectors.joining(between))
                : values.asString();
    }

    private static String given(Error error) {
        String value = String.valueOf(error.getInstanceNode());
        return value.length() > 60 ? value.substring(0, 60) + "…" : value;
    }
}
