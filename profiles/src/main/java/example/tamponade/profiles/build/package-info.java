/**
 * Builds the FHIR NPM package. Hand-written differentials, rules and examples come in, with the terminology on the class
 * path; {@code package.tgz} goes out, with canonical addresses, snapshots and index. It runs at build only and is not in
 * the jar; any problem stops the build.
 */
@NullMarked
package example.tamponade.profiles.build;

import org.jspecify.annotations.NullMarked;
