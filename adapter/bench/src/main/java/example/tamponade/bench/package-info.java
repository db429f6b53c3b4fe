/** Benchmarks: what an event costs. Run by hand; no test depends on a time. */
@NullMarked
package example.tamponade.bench;

import org.jspecify.annotations.NullMarked;
