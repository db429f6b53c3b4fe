package example.tamponade.app.rest;

import ca.uhn.fhir.rest.annotation.IdParam;
import ca.uhn.fhir.rest.annotation.Operation;
import ca.uhn.fhir.rest.annotation.Read;
import ca.uhn.fhir.rest.annotation.Search;
import ca.uhn.fhir.rest.api.server.RequestDetails;
import ca.uhn.fhir.rest.server.IResourceProvider;
import ca.uhn.fhir.rest.server.exceptions.ResourceNotFoundException;
import example.tamponade.app.access.Caller;
import example.tamponade.app.export.CaseGroup;
import example.tamponade.app.export.GroupedCases;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Narratives;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Group;
import org.hl7.fhir.r4.model.IdType;
import org.hl7.fhir.r4.model.Reference;

/** The cases of a facility and of a month, as Groups of their mothers. */
public final class GroupProvider implements IResourceProvider {

    private final GroupedCases cases;
    private final ExportKickOff kickOff;

    /** Groups those cases. */
    public GroupProvider(GroupedCases cases, ExportKickOff kickOff) {
        this.cases = cases;
        this.kickOff = kickOff;
    }

    @Override
    public Class<? extends IBaseResource> getResourceType() {
        return Group.class;
    }

    /** A group, with its members. */
    @Read
    public Group read(@IdParam IdType id) {
        Caller caller = Caller.current();
        caller.scopes().demandRead("Group");
        CaseGroup group = group(id);
        List<String> patients = cases.patients(group, caller.compartment());
        Group read = described(group);
        patients.forEach(it -> read.addMember().setEntity(new Reference("Patient/" + it)));
        read.setQuantity(patients.size());
        return read;
    }

    /** All groups that a case is of, without their members. */
    @Search
    public List<Group> search() {
        Caller caller = Caller.current();
        caller.scopes().demandSearch(List.of("Group"));
        return cases.groups(caller.compartment()).stream()
                .map(GroupProvider::described)
                .toList();
    }

    /** Everything of the cases of a group. */
    @Operation(name = "$export", manualResponse = true, idempotent = true)
    public void export(@IdParam IdType id, RequestDetails request, HttpServletResponse response) {
        kickOff.ofGroup(group(id), request, response);
    }

    private CaseGroup group(IdType id) {
        CaseGroup group = CaseGroup.of(id.getIdPart());
        if (group == null) {
            throw new ResourceNotFoundException("no group '" + id.getIdPart() + "'; there are month-2026-03,"
                    + " facility-ID and month-2026-03.facility-ID, with the month in which a case began; GET "
                    + FhirApi.PATH + "/Group lists those with a case");
        }
        return group;
    }

    private static Group described(CaseGroup group) {
        Group described = new Group();
        described.setId(group.id());
        described
                .setActive(true)
                .setType(Group.GroupType.PERSON)
                .setActual(true)
                .setName(group.title());
        described.setText(Narratives.of(List.of(group.title() + ".", CaseMapper.CAUTION)));
        return described;
    }
}
