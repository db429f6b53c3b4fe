package example.tamponade.conformance.check;

import example.tamponade.conformance.rules.Binding;
import example.tamponade.conformance.rules.CodeSystemRule;
import example.tamponade.conformance.rules.Definition;
import example.tamponade.conformance.rules.Profiles;
import example.tamponade.conformance.rules.Rules;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Whether codes exist, and whether they are where an element takes them from. */
final class CodeCheck {

    private static final Set<String> CODES = Set.of("code", "uri");

    private final Profiles profiles;
    private final Findings findings;

    CodeCheck(Profiles profiles, Findings findings) {
        this.profiles = profiles;
        this.findings = findings;
    }

    void check(Element element, Rules rules, Definition in) {
        Binding binding = rules.head().binding();
        switch (element.type()) {
            case "CodeableConcept" -> concept(element, binding);
            case "Coding" -> {
                boolean inConcept =
                        element.parent() != null && element.parent().type().equals("CodeableConcept");
                if (!inConcept || binding != null) {
                    codings(element, List.of(element), binding);
                }
            }
            case "Quantity", "Age", "Count", "Distance", "Duration", "Money" -> quantity(element, binding);
            case "Identifier" -> identifier(element);
            default -> plain(element, binding);
        }
    }

    private void concept(Element concept, @Nullable Binding binding) {
        List<Element> codings = new ArrayList<>();
        for (Element child : concept.children()) {
            if (child.name().equals("coding")) {
                codings.add(child);
            }
        }
        codings(concept, codings, binding);
    }

    private void codings(Element at, List<Element> codings, @Nullable Binding binding) {
        boolean known = binding != null && binding.valueSet().known();
        if (binding != null && known && anyIn(codings, binding)) {
            Binding base = binding.base();
            if (base != null && isInEntry(at) && !anyIn(codings, base)) {
                codings.forEach(it -> exists(at, it, base));
            }
            return;
        }
        // Where no value set is asked for, one code that exists vouches for its translations, as in the stock
        // validator.
        boolean vouched =
                binding == null && codings.size() > 1 && codings.stream().anyMatch(this::isKnown);
        if (!vouched) {
            codings.forEach(it -> exists(at, it, binding));
        }
        if (binding == null) {
            return;
        }
        boolean coded = codings.stream().anyMatch(it -> it.childText("code") != null);
        if (codings.isEmpty() || !coded) {
            none(at, binding);
        } else if (known) {
            weigh(
                    at,
                    binding,
                    "None of the codings provided are in the value set '"
                            + binding.valueSet().url() + "'");
        }
    }

    // The stock validator holds an entry of a bundle to FHIR R4 itself besides its profile: each of its codes must
    // exist.
    private static boolean isInEntry(Element element) {
        Element at = element;
        while (at.parent() != null && !at.isResource()) {
            at = at.parent();
        }
        return at.parent() != null;
    }

    private static boolean anyIn(List<Element> codings, @Nullable Binding binding) {
        return binding != null && codings.stream().anyMatch(it -> in(it, binding));
    }

    private static boolean in(Element coding, Binding binding) {
        String system = coding.childText("system");
        String code = coding.childText("code");
        return system != null && code != null && binding.valueSet().has(system, code);
    }

    private boolean isKnown(Element coding) {
        String system = coding.childText("system");
        String code = coding.childText("code");
        CodeSystemRule known = system == null ? null : profiles.codeSystem(system);
        return known != null && code != null && known.has(code);
    }

    private void none(Element at, Binding binding) {
        weigh(
                at,
                binding,
                "No code provided, and a code is required from the value set '"
                        + binding.valueSet().url() + "'");
    }

    private void weigh(Element at, Binding binding, String message) {
        if (binding.isRequired()) {
            findings.error(at, message);
        } else if (binding.isExtensible()) {
            findings.warning(at, message);
        }
    }

    private void exists(Element at, Element coding, @Nullable Binding binding) {
        String system = coding.childText("system");
        String code = coding.childText("code");
        if (system == null || system.isEmpty()) {
            if (code != null) {
                findings.warning(at, "Coding has no system. A code with no system has no defined meaning");
            }
            return;
        }
        boolean inConcept = coding != at;
        if (code == null && !inConcept) {
            return;
        }
        if (!inConcept && !Primitives.isSystem(system)) {
            findings.error(coding, "Coding.system must be an absolute reference, not a local reference");
            return;
        }
        if (Units.SYSTEM.equals(system)) {
            if (code != null && !Units.isValid(code)) {
                findings.error(at, "Error processing unit '" + code + "': the unit is not one of UCUM");
            }
            return;
        }
        CodeSystemRule known = profiles.codeSystem(system);
        if (known == null) {
            unknownSystem(
                    at, "CodeSystem is unknown and can't be validated: " + system + " for '" + code + "'", binding);
            return;
        }
        if (code == null || !known.has(code)) {
            String message = "Unknown code '" + system + "#" + code + "'";
            if (known.fragment()) {
                findings.warning(at, message);
            } else {
                findings.error(at, message);
            }
        }
    }

    private void unknownSystem(Element at, String message, @Nullable Binding binding) {
        if (binding != null && binding.isRequired()) {
            findings.error(at, message);
        } else {
            findings.warning(at, message);
        }
    }

    private void quantity(Element quantity, @Nullable Binding binding) {
        String system = quantity.childText("system");
        String code = quantity.childText("code");
        if (system != null && !Primitives.isSystem(system)) {
            findings.error(quantity, "Coding.system must be an absolute reference, not a local reference");
        }
        if (code != null && Units.SYSTEM.equals(system) && !Units.isValid(code)) {
            findings.error(quantity, "Error processing unit '" + code + "': the unit is not one of UCUM");
        }
        if (binding != null && binding.valueSet().known()) {
            if (code == null) {
                none(quantity, binding);
            } else if (system == null || !binding.valueSet().has(system, code)) {
                weigh(
                        quantity,
                        binding,
                        "The unit '" + code + "' is not in the value set '"
                                + binding.valueSet().url() + "'");
            }
        }
    }

    private void identifier(Element identifier) {
        String system = identifier.childText("system");
        if (system != null && !Primitives.isSystem(system) && !system.startsWith("ldap:")) {
            findings.error(identifier, "Identifier.system must be an absolute reference, not a local reference");
        }
        String value = identifier.childText("value");
        if ("urn:ietf:rfc:3986".equals(system) && value != null && !Primitives.hasScheme(value)) {
            findings.error(
                    identifier,
                    "if identifier.system is 'urn:ietf:rfc:3986', then the identifier.value must be a full URI, not '"
                            + value + "'");
        }
    }

    private void plain(Element element, @Nullable Binding binding) {
        String text = element.text();
        if (binding == null || text == null || !CODES.contains(element.type())) {
            return;
        }
        if (!binding.valueSet().known() || binding.valueSet().has(text)) {
            return;
        }
        if (binding.isExtensible()) {
            // A code without a system can come from nowhere else.
            findings.error(element, "Unknown code '" + text + "'");
        } else {
            weigh(
                    element,
                    binding,
                    "The value provided ('" + text + "') was not found in the value set '"
                            + binding.valueSet().url() + "'");
        }
    }
}
