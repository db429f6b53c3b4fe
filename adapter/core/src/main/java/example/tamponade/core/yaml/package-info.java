/** Settings files in YAML, read strictly and with the line of each problem. */
@NullMarked
package example.tamponade.core.yaml;

import org.jspecify.annotations.NullMarked;
