-- Appended, never changed: the triggers hold even for hands at the database.
create trigger ledger_is_not_updated before update on ledger
begin
    select raise(abort, 'the ledger is append-only');
end;

create trigger ledger_is_not_deleted before delete on ledger
begin
    select raise(abort, 'the ledger is append-only');
end;

create trigger original_is_not_updated before update on original
begin
    select raise(abort, 'originals are append-only');
end;

create trigger original_is_not_deleted before delete on original
begin
    select raise(abort, 'originals are append-only');
end;

create trigger commit_chain_is_not_updated before update on commit_chain
begin
    select raise(abort, 'the chain of commits is append-only');
end;

create trigger commit_chain_is_not_deleted before delete on commit_chain
begin
    select raise(abort, 'the chain of commits is append-only');
end;

create trigger refused_original_is_not_updated before update on refused_original
begin
    select raise(abort, 'what was refused is append-only');
end;

create trigger refused_original_is_not_deleted before delete on refused_original
begin
    select raise(abort, 'what was refused is append-only');
end;

create trigger quarantine_keeps_its_content before update of id, received_at, format, place, digest, part on quarantine
begin
    select raise(abort, 'what is in quarantine is not changed');
end;

create trigger quarantine_is_not_deleted before delete on quarantine
begin
    select raise(abort, 'what is in quarantine is not deleted');
end;

create trigger quarantine_step_is_not_updated before update on quarantine_step
begin
    select raise(abort, 'the history of quarantine is append-only');
end;

create trigger quarantine_step_is_not_deleted before delete on quarantine_step
begin
    select raise(abort, 'the history of quarantine is append-only');
end;
