-- Appended, never changed: the triggers hold even for hands at the database.
create function refuse_change() returns trigger language plpgsql as $$
begin
    raise exception '% is append-only', tg_table_name;
end
$$;

create trigger ledger_is_not_changed before update or delete or truncate on ledger
    for each statement execute function refuse_change();

create trigger original_is_not_changed before update or delete or truncate on original
    for each statement execute function refuse_change();

create trigger commit_chain_is_not_changed before update or delete or truncate on commit_chain
    for each statement execute function refuse_change();

create trigger refused_original_is_not_changed before update or delete or truncate on refused_original
    for each statement execute function refuse_change();

create trigger quarantine_keeps_its_content
    before update of id, received_at, format, place, digest, part on quarantine
    for each statement execute function refuse_change();

create trigger quarantine_is_not_deleted before delete or truncate on quarantine
    for each statement execute function refuse_change();

create trigger quarantine_step_is_not_changed before update or delete or truncate on quarantine_step
    for each statement execute function refuse_change();
