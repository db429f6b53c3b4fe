/**
 * Registers as CSV: rows of a spreadsheet in, one event a row out, or a refusal that names row, column and remedy. It
 * tells apart separators, decimal signs and ways of writing dates, and refuses what can be read in two ways. It judges no
 * value and stores nothing.
 */
@NullMarked
package example.tamponade.app.register;

import org.jspecify.annotations.NullMarked;
