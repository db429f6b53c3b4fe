package example.tamponade.core.event;

/**
 * Who wrote an event down.
 *
 * @param id the person's or device's id at the facility
 * @param role in what role
 */
public record Recorder(String id, StaffRole role) {}
