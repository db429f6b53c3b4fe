-- The new ledger is appended to, never changed; the former one stands as it was.
drop trigger ledger_is_not_updated;
drop trigger ledger_is_not_deleted;

create trigger former_ledger_is_not_updated before update on former_ledger
begin
    select raise(abort, 'the former ledger is not changed');
end;

create trigger former_ledger_is_not_deleted before delete on former_ledger
begin
    select raise(abort, 'the former ledger is not changed');
end;

create trigger ledger_is_not_updated before update on ledger
begin
    select raise(abort, 'the ledger is append-only');
end;

create trigger ledger_is_not_deleted before delete on ledger
begin
    select raise(abort, 'the ledger is append-only');
end;

create trigger former_ledger_is_not_added_to before insert on former_ledger
begin
    select raise(abort, 'the former ledger is not changed');
end;

create trigger former_end_is_not_added before insert on former_case_head
begin
    select raise(abort, 'the former ledger is not changed');
end;

create trigger former_end_is_not_updated before update on former_case_head
begin
    select raise(abort, 'the former ledger is not changed');
end;

create trigger former_end_is_not_deleted before delete on former_case_head
begin
    select raise(abort, 'the former ledger is not changed');
end;
