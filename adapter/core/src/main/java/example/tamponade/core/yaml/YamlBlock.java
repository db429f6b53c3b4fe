package example.tamponade.core.yaml;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/** A block of a settings file, read strictly: whatever is unknown, missing or of the wrong kind becomes a problem. */
public final class YamlBlock {

    private final String path;
    private final int line;
    private final Map<String, Node> entries = new LinkedHashMap<>();
    private final List<String> problems;

    private YamlBlock(String path, int line, List<String> problems) {
        this.path = path;
        this.line = line;
        this.problems = problems;
    }

    /**
     * Reads a file.
     *
     * @param name the file, for people
     * @param problems is given what is wrong, each with its line
     * @throws NotYamlException when it is something else
     */
    public static YamlBlock read(String name, String yaml, List<String> problems) throws NotYamlException {
        try {
            LoadSettings settings = LoadSettings.builder().setLabel(name).build();
            return of("", new Compose(settings).composeString(yaml).orElse(null), 1, problems);
        } catch (MarkedYamlEngineException e) {
            int line = e.getProblemMark().map(it -> it.getLine() + 1).orElse(0);
            throw new NotYamlException(line, e.getProblem());
        }
    }

    private static YamlBlock of(String path, @Nullable Node node, int parentLine, List<String> problems) {
        YamlBlock block = new YamlBlock(path, node == null ? parentLine : lineOf(node), problems);
        if (node instanceof MappingNode mapping) {
            mapping.getValue().forEach(block::add);
        } else if (node != null) {
            block.problem(block.line, path + " must be a block of keys and values");
        }
        return block;
    }

    private void add(NodeTuple tuple) {
        String key = tuple.getKeyNode() instanceof ScalarNode scalar ? scalar.getValue() : "?";
        if (entries.put(key, tuple.getValueNode()) != null) {
            problem(lineOf(tuple.getKeyNode()), at(key) + " stands twice; keep one");
        }
    }

    /** The line that it begins at. */
    public int line() {
        return line;
    }

    /** Its keys, in order. */
    public Set<String> keys() {
        return entries.keySet();
    }

    /** Makes every key but these a problem. */
    public void allowOnly(Set<String> known) {
        entries.forEach((key, node) -> {
            if (!known.contains(key)) {
                problem(lineOf(node), at(key) + " is not known here; known are " + String.join(", ", known));
            }
        });
    }

    /** A block that has to be there. */
    public YamlBlock block(String key) {
        Node node = entries.get(key);
        if (node == null) {
            problem(line, at(key) + " is missing; add it");
        }
        return of(at(key), node, line, problems);
    }

    /** The blocks of a list; none when it is missing. */
    public List<YamlBlock> optionalBlocks(String key) {
        return entries.containsKey(key) ? blocks(key) : List.of();
    }

    /** The blocks of a list; an empty or missing list is a problem. */
    public List<YamlBlock> blocks(String key) {
        Node node = entries.get(key);
        if (node instanceof SequenceNode sequence && !sequence.getValue().isEmpty()) {
            return sequence.getValue().stream()
                    .map(it -> of(at(key), it, line, problems))
                    .toList();
        }
        problem(node == null ? line : lineOf(node), at(key) + " must be a list of blocks");
        return List.of();
    }

    /** A text that has to be there. */
    public String text(String key) {
        String text = optionalText(key);
        if (text == null) {
            problem(line, at(key) + " is missing; add it");
            return "";
        }
        return text;
    }

    /** A text; null when there is none. */
    public @Nullable String optionalText(String key) {
        Node node = entries.get(key);
        if (node == null) {
            return null;
        }
        if (node instanceof ScalarNode scalar && !scalar.getValue().isBlank()) {
            return scalar.getValue();
        }
        problem(lineOf(node), at(key) + " must be text");
        return "";
    }

    /** Holds its unit to the one wanted. */
    public void unit(String wanted) {
        String unit = text("unit");
        if (!unit.isEmpty() && !unit.equals(wanted)) {
            problem(at("unit") + " is " + unit + "; this value is held in " + wanted);
        }
    }

    /** A decimal number that has to be there. */
    public BigDecimal number(String key) {
        Node node = entries.get(key);
        if (node == null) {
            problem(line, at(key) + " is missing; add it");
            return BigDecimal.ZERO;
        }
        return number(at(key), node);
    }

    /** Both ends of a range written as {@code [from, to]}. */
    public List<BigDecimal> range(String key) {
        Node node = entries.get(key);
        if (node instanceof SequenceNode sequence && sequence.getValue().size() == 2) {
            List<BigDecimal> ends =
                    sequence.getValue().stream().map(it -> number(at(key), it)).toList();
            if (ends.get(0).compareTo(ends.get(1)) > 0) {
                problem(lineOf(node), at(key) + " begins above its end; swap the two");
            }
            return ends;
        }
        problem(node == null ? line : lineOf(node), at(key) + " must be a range, written [from, to]");
        return List.of(BigDecimal.ZERO, BigDecimal.ZERO);
    }

    /** Says that something is wrong with the block. */
    public void problem(String message) {
        problem(line, path + ": " + message);
    }

    private BigDecimal number(String where, Node node) {
        try {
            return new BigDecimal(((ScalarNode) node).getValue());
        } catch (ClassCastException | NumberFormatException notANumber) {
            problem(lineOf(node), where + " must be a decimal number");
            return BigDecimal.ZERO;
        }
    }

    private String at(String key) {
        return path.isEmpty() ? key : path + "." + key;
    }

    private void problem(int atLine, String message) {
        problems.add("line " + atLine + ": " + message);
    }

    private static int lineOf(Node node) {
        return node.getStartMark().map(it -> it.getLine() + 1).orElse(0);
    }
}
