/**
 * One page for each case that a clinician reads at a glance: times, totals, trends, warnings, and what is missing. It shows
 * what the case file derived and adds no judgement of its own.
 */
@NullMarked
package example.tamponade.app.summary;

import org.jspecify.annotations.NullMarked;
