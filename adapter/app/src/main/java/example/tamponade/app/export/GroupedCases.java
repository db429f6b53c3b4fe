package example.tamponade.app.export;

import example.tamponade.app.access.Binding;
import example.tamponade.app.access.Compartment;
import example.tamponade.app.database.Database;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.core.event.CaseId;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.json.JsonMapper;

/** Which cases are on record, and which groups they make. */
public final class GroupedCases {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final JdbcClient jdbc;

    /** Reads from that database. */
    public GroupedCases(Database database) {
        this.jdbc = database.reader();
    }

    private record Begun(String caseKey, OffsetDateTime at, String patient) {

        CaseId caseId() {
            return Objects.requireNonNull(CaseKey.caseId(caseKey), caseKey);
        }
    }

    /** The keys of the cases of a group in that compartment, in order. */
    public List<String> keys(CaseGroup group, Compartment compartment) {
        return begun(group, compartment).stream().map(Begun::caseKey).toList();
    }

    /** The ids of their mothers' resources, in order of the cases. */
    public List<String> patients(CaseGroup group, Compartment compartment) {
        return begun(group, compartment).stream().map(Begun::patient).toList();
    }

    /** The ids of the mothers' resources of these cases in that compartment, by the cases' keys. */
    public Map<String, String> patients(Collection<String> caseKeys, Compartment compartment) {
        Set<String> asked = Set.copyOf(caseKeys);
        return begun(CaseGroup.ALL, compartment).stream()
                .filter(it -> asked.contains(it.caseKey()))
                .collect(Collectors.toMap(Begun::caseKey, Begun::patient));
    }

    /**
     * The keys of the cases in that compartment that began between two days by the clock there, both included, in order.
     *
     * @param facilityId the facility that numbered them; null: all
     */
    public List<String> begunBetween(
            LocalDate from, LocalDate to, @Nullable String facilityId, Compartment compartment) {
        return begun(new CaseGroup(null, facilityId), compartment).stream()
                .filter(it -> !it.at().toLocalDate().isBefore(from)
                        && !it.at().toLocalDate().isAfter(to))
                .map(Begun::caseKey)
                .toList();
    }

    /** The keys of everything on record in that compartment, of the facilities' own too, in order. */
    public List<String> keysOfAll(Compartment compartment) {
        Binding binding = new Binding();
        return jdbc.sql("select distinct n.case_key from case_resource n where "
                        + compartment.ofCase("n.case_key", binding::bind) + " order by n.case_key")
                .params(binding.values())
                .query(String.class)
                .list();
    }

    /** Every group that a case in that compartment is of: its facility, its month, and both. */
    public List<CaseGroup> groups(Compartment compartment) {
        SortedSet<String> ids = new TreeSet<>();
        begun(CaseGroup.ALL, compartment).forEach(it -> {
            String facilityId = it.caseId().facilityId();
            YearMonth month = YearMonth.from(it.at());
            ids.add(new CaseGroup(null, facilityId).id());
            ids.add(new CaseGroup(month, null).id());
            ids.add(new CaseGroup(month, facilityId).id());
        });
        return ids.stream().map(CaseGroup::of).map(Objects::requireNonNull).toList();
    }

    // The month is that of the clock at the bedside, which the time of the index no longer tells.
    private List<Begun> begun(CaseGroup group, Compartment compartment) {
        Binding binding = new Binding();
        return jdbc
                .sql("""
                        select n.case_key, v.content from case_resource n
                        join current_version c on c.type = n.type and c.id = n.id
                        join resource_version v on v.type = c.type and v.id = c.id and v.version = c.version
                        where n.type = 'EpisodeOfCare' and
                        """ + compartment.ofCase("n.case_key", binding::bind) + " order by n.case_key")
                .params(binding.values())
                .query((row, n) -> begun(row.getString(1), row.getString(2)))
                .list()
                .stream()
                .filter(it -> group.facilityId() == null
                        || group.facilityId().equals(it.caseId().facilityId()))
                .filter(it -> group.month() == null || group.month().equals(YearMonth.from(it.at())))
                .toList();
    }

    private static Begun begun(String caseKey, String episode) {
        var read = JSON.readTree(episode);
        return new Begun(
                caseKey,
                OffsetDateTime.parse(read.required("period").required("start").asString()),
                read.required("patient").required("reference").asString().substring("Patient/".length()));
    }
}
