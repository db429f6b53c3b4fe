/** Derived values and warnings as HL7 2.5.1 result messages, for systems that read those. */
@NullMarked
package example.tamponade.app.results;

import org.jspecify.annotations.NullMarked;
