package example.tamponade.conformance.rules;

import java.util.List;

/**
 * A type or profile.
 *
 * @param url its canonical address
 * @param type the type that it defines or constrains
 * @param profile whether it constrains a type
 * @param primitive whether its type is primitive
 * @param version its version
 * @param contexts of an extension, the paths and types that it may stand at
 * @param root the rules of its root
 */
public record Definition(
        String url,
        String type,
        boolean profile,
        boolean primitive,
        String version,
        List<Context> contexts,
        Rules root) {

    /**
     * Where an extension may stand.
     *
     * @param type {@code element} or {@code extension}
     * @param expression a type or path, or the address of an extension
     */
    public record Context(String type, String expression) {}
}
