package example.tamponade.app.rest;

import ca.uhn.fhir.rest.annotation.Create;
import ca.uhn.fhir.rest.annotation.Delete;
import ca.uhn.fhir.rest.annotation.IdParam;
import ca.uhn.fhir.rest.annotation.Read;
import ca.uhn.fhir.rest.annotation.ResourceParam;
import ca.uhn.fhir.rest.annotation.Search;
import ca.uhn.fhir.rest.api.MethodOutcome;
import ca.uhn.fhir.rest.server.IResourceProvider;
import ca.uhn.fhir.rest.server.exceptions.ResourceNotFoundException;
import ca.uhn.fhir.rest.server.exceptions.UnprocessableEntityException;
import example.tamponade.app.outbox.DestinationState;
import example.tamponade.app.outbox.OutboxStates;
import example.tamponade.app.subscription.SubscriptionRefusedException;
import example.tamponade.app.subscription.SubscriptionStore;
import java.util.List;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.IdType;
import org.hl7.fhir.r4.model.Subscription;

/** Subscriptions, the operator's to make and to end: HL7 FHIR R4, Subscription. */
public final class SubscriptionProvider implements IResourceProvider {

    private final SubscriptionStore store;
    private final OutboxStates states;

    /** Tells of those, and how they stand. */
    public SubscriptionProvider(SubscriptionStore store, OutboxStates states) {
        this.store = store;
        this.states = states;
    }

    @Override
    public Class<? extends IBaseResource> getResourceType() {
        return Subscription.class;
    }

    /** Keeps a subscription; from then on it is told of. */
    @Create
    public MethodOutcome create(@ResourceParam Subscription subscription) {
        try {
            Subscription kept = store.add(subscription);
            MethodOutcome made = new MethodOutcome(new IdType("Subscription", kept.getIdPart()), true);
            made.setResource(shown(kept));
            return made;
        } catch (SubscriptionRefusedException e) {
            throw new UnprocessableEntityException(String.valueOf(e.getMessage()));
        }
    }

    /** A subscription, and what keeps it from being told. */
    @Read
    public Subscription read(@IdParam IdType id) {
        return shown(find(id));
    }

    /** All subscriptions. */
    @Search
    public List<Subscription> search() {
        return store.all().stream().map(this::shown).toList();
    }

    /** Ends a subscription. */
    @Delete
    public MethodOutcome delete(@IdParam IdType id) {
        store.remove(find(id));
        return new MethodOutcome();
    }

    private Subscription find(IdType id) {
        return store.find(id.getIdPart())
                .orElseThrow(() -> new ResourceNotFoundException("no subscription '" + id.getIdPart() + "'"));
    }

    // What is sent along may be a key; nobody needs it back.
    private Subscription shown(Subscription subscription) {
        subscription
                .getChannel()
                .getHeader()
                .forEach(it -> it.setValue(it.getValue().replaceFirst(":.*", ": kept, not shown")));
        String name = SubscriptionStore.destination(subscription);
        states.states().stream()
                .filter(it -> it.name().equals(name))
                .map(SubscriptionProvider::problem)
                .filter(it -> !it.isEmpty())
                .findFirst()
                .ifPresent(it -> subscription
                        .setStatus(Subscription.SubscriptionStatus.ERROR)
                        .setError(it));
        return subscription;
    }

    private static String problem(DestinationState state) {
        return state.problem().isEmpty() && state.parkedCases() > 0
                ? "the endpoint refuses what it is told of " + state.parkedCases() + " cases; GET /deliveries/"
                        + state.name() + "?state=parked says why"
                : state.problem();
    }
}
