package example.tamponade.fhir.conformance;

import java.util.List;

/** Finds what is wrong with resources as JSON text. */
interface ResourceValidator {

    /** The problems of one resource; of a bundle those of everything in it. */
    List<Problem> one(ResourceText resource);

    /** The problems of resources that may refer to one another, in their order. */
    List<Problem> several(List<ResourceText> resources);
}
