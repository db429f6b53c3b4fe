package example.tamponade.conformance.check;

import example.tamponade.conformance.Finding;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** What was found so far; the same thing at the same place counts once. */
final class Findings {

    private final Set<Finding> all = new LinkedHashSet<>();
    private boolean failed;

    void error(Element at, String message) {
        failed = true;
        add(Finding.Severity.ERROR, at, "", message);
    }

    void error(Element at, String child, String message) {
        failed = true;
        add(Finding.Severity.ERROR, at, child, message);
    }

    void warning(Element at, String message) {
        add(Finding.Severity.WARNING, at, "", message);
    }

    private void add(Finding.Severity severity, Element at, String child, String message) {
        all.add(new Finding(severity, at.resourceName(), at.path() + child, message));
    }

    void add(Finding finding) {
        failed |= finding.severity() == Finding.Severity.ERROR;
        all.add(finding);
    }

    boolean failed() {
        return failed;
    }

    List<Finding> all() {
        return new ArrayList<>(all);
    }
}
