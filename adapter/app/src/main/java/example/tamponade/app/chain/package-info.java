/** One chain over everything that was ever written down, so that a case that is gone whole shows. */
@NullMarked
package example.tamponade.app.chain;

import org.jspecify.annotations.NullMarked;
