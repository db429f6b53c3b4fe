/**
 * The FHIR R4 package of this project: {@code package.tgz} lies beside this page on the class path. A validator loads
 * it and needs to generate nothing. Nothing here maps events or serves requests.
 */
@NullMarked
package example.tamponade.profiles;

import org.jspecify.annotations.NullMarked;
