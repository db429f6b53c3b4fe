-- The new ledger is appended to, never changed; the former one stands as it was.
create trigger ledger_is_not_changed before update or delete or truncate on ledger
    for each statement execute function refuse_change();

create trigger former_ledger_is_not_added_to before insert on former_ledger
    for each statement execute function refuse_change();

create trigger former_ends_are_not_changed before insert or update or delete or truncate on former_case_head
    for each statement execute function refuse_change();
