package example.tamponade.app.intake;

import example.tamponade.core.event.Coded;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonReadFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.cfg.DateTimeFeature;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.cfg.MapperConfig;
import tools.jackson.databind.introspect.AnnotatedClass;
import tools.jackson.databind.introspect.JacksonAnnotationIntrospector;
import tools.jackson.databind.json.JsonMapper;

/** How the events' JSON is read: strictly, with exact decimals and with times as they were written. */
final class EventJson {

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .disable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .disable(DateTimeFeature.ADJUST_DATES_TO_CONTEXT_TIME_ZONE)
            .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
            .disable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
            .annotationIntrospector(new CodedNames())
            .build();

    private EventJson() {}

    static JsonNode parse(String text) {
        return MAPPER.readTree(text);
    }

    static <T> T bind(JsonNode node, Class<T> type) {
        return MAPPER.treeToValue(node, type);
    }

    // Enums of the vocabulary go by their codes, so that core needs no annotation.
    private static final class CodedNames extends JacksonAnnotationIntrospector {

        private static final long serialVersionUID = 1L;

        @Override
        public String[] findEnumValues(
                MapperConfig<?> config, AnnotatedClass annotatedClass, Enum<?>[] values, String[] names) {
            for (int i = 0; i < values.length; i++) {
                if (values[i] instanceof Coded coded) {
                    names[i] = coded.code();
                }
            }
            return names;
        }
    }
}
