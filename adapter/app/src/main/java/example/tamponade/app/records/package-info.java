/**
 * The parts that turn a folded case into checked resources, built once: code systems, mapper, bundles and conformance.
 */
@NullMarked
package example.tamponade.app.records;

import org.jspecify.annotations.NullMarked;
