-- Every accepted event as it came. Appended, never changed: the triggers hold even for hands at the database.
create table ledger (
    seq         integer primary key autoincrement,
    event_id    text not null unique,
    case_key    text not null,
    received_at text not null,
    digest      text not null,
    payload     text not null
);

create index ledger_by_case on ledger (case_key, seq);

create trigger ledger_is_not_updated before update on ledger
begin
    select raise(abort, 'the ledger is append-only');
end;

create trigger ledger_is_not_deleted before delete on ledger
begin
    select raise(abort, 'the ledger is append-only');
end;

-- Every version of every resource; the highest version is the current one.
create table resource_version (
    type     text not null,
    id       text not null,
    version  integer not null,
    case_key text not null,
    content  text not null,
    primary key (type, id, version)
);

create index resource_by_case on resource_version (case_key);

-- Up to which ledger row a case's resources are stored.
create table projection (
    case_key text primary key,
    seq      integer not null
);
