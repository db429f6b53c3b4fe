-- Events of the ledger that this software failed to put on record: the case goes on without them. Each is kept in quarantine
-- too, and is tried again by other software than that which failed.
create table set_aside (
    case_key text   not null,
    case_seq bigint not null,
    event_id text   not null,
    software text   not null,
    reason   text   not null,
    primary key (case_key, case_seq)
);
