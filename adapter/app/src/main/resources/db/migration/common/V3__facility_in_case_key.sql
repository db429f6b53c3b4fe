-- A case is its facility and its number: rows get new keys, and so new links. What stood before stays beside it, as it was
-- written, so that an end of a case that was kept elsewhere can still be found. The rows are copied by the next version.
alter table ledger rename to former_ledger;
alter table case_head rename to former_case_head;

create table ledger (
    case_key    text   not null,
    case_seq    bigint not null,
    event_id    text   not null unique,
    received_at text   not null,
    format      text   not null,
    digest      text   not null,
    payload     text   not null,
    link        text   not null,
    primary key (case_key, case_seq)
);

create table case_head (
    case_key text   not null primary key,
    case_seq bigint not null,
    link     text   not null
);

-- The record is derived, and the ids in it are of the keys before: it is derived anew.
delete from resource_version;
delete from case_resource;
delete from checkpoint;
