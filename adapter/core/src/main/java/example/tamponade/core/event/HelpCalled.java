package example.tamponade.core.event;

import java.util.List;

/**
 * Help was called.
 *
 * @param who the roles called; at least one
 */
public record HelpCalled(List<StaffRole> who) implements BedsideEvent {
    public HelpCalled {
        who = List.copyOf(who);
    }
}
