package example.tamponade.conformance.check;

import example.tamponade.conformance.fhirpath.Node;
import example.tamponade.conformance.fhirpath.Scope;
import example.tamponade.conformance.rules.Profiles;
import example.tamponade.conformance.rules.ValueSetRule;
import org.jspecify.annotations.Nullable;

/** What invariants reach from an element. */
final class CheckScope implements Scope {

    private final Profiles profiles;
    private @Nullable Element focus;

    CheckScope(Profiles profiles) {
        this.profiles = profiles;
    }

    /** This scope, seen from an element. */
    CheckScope of(Element element) {
        focus = element;
        return this;
    }

    private Element focus() {
        if (focus == null) {
            throw new IllegalStateException("no element");
        }
        return focus;
    }

    @Override
    public Node resource() {
        return focus().owner();
    }

    @Override
    public Node rootResource() {
        return focus().root();
    }

    @Override
    public @Nullable Boolean memberOf(Node coded, String valueSet) {
        ValueSetRule set = profiles.valueSet(valueSet);
        if (!set.known() || !(coded instanceof Element element)) {
            return Boolean.FALSE;
        }
        String code = element.childText("code");
        String system = element.childText("system");
        return code != null && system != null && set.has(system, code);
    }
}
