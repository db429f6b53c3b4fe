/** What a site asks of the resources beside the published package: its FHIR packages and its adaptation file. */
@NullMarked
package example.tamponade.fhir.site;

import org.jspecify.annotations.NullMarked;
