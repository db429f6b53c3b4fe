-- Every accepted event. Each row's link is a digest over the row and the link before it in its case, so that a row that
-- was changed, left out or put in shows.
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

-- The end of each case's chain. Whoever appends to a case locks its row.
create table case_head (
    case_key text   not null primary key,
    case_seq bigint not null,
    link     text   not null
);

-- What an event came in, where that is not its payload: a register's row, a message, a resource.
create table original (
    digest  text  not null primary key,
    content bytea not null
);

-- One chain over everything that was ever written down: each record names the cases, each with its end, and the refusals of
-- a commit, and is linked to the one before.
create table commit_chain (
    number  bigint not null primary key,
    content text   not null,
    link    text   not null
);

-- What was refused, whole; once, however many pieces of it were refused.
create table refused_original (
    digest   text   not null primary key,
    length   bigint not null,
    encoding text   not null,
    content  text   not null
);

-- Every piece that was refused. The same piece is one entry, however often it comes.
create table quarantine (
    id          text   not null primary key,
    received_at text   not null,
    format      text   not null,
    place       text   not null,
    state       text   not null,
    digest      text   not null references refused_original (digest),
    part        text   not null,
    unique (digest, format, part)
);

create index quarantine_by_arrival on quarantine (received_at, id);

-- What became of it: the refusal, each correction and its result.
create table quarantine_step (
    quarantine_id text   not null references quarantine (id),
    step          bigint not null,
    at            text   not null,
    who           text   not null,
    what          text   not null,
    note          text   not null,
    encoding      text   not null,
    content       text   not null,
    reasons       text   not null,
    primary key (quarantine_id, step)
);

-- Every version of every resource; the highest version is the current one.
create table resource_version (
    type     text    not null,
    id       text    not null,
    version  integer not null,
    content  text    not null,
    primary key (type, id, version)
);

-- Which resources a case is told by; its facility and its people belong to other cases too.
create table case_resource (
    case_key text not null,
    type     text not null,
    id       text not null,
    primary key (case_key, type, id)
);

-- Up to which event of a case everything derived from it is on record: where a restart goes on from.
create table checkpoint (
    case_key text   not null primary key,
    case_seq bigint not null
);

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
