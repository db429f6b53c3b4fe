/** What an audit counts: measures over the cases of a period, from what is on record of each. */
@NullMarked
package example.tamponade.app.measure;

import org.jspecify.annotations.NullMarked;
