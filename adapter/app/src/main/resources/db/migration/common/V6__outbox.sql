-- Where what is on record is delivered to, and what it gets: a destination that is to get something else begins anew.
-- The problem is the last that concerned the destination as a whole; empty when it answers.
create table destination (
    name       text not null primary key,
    address    text not null,
    selection  text not null,
    problem    text not null,
    problem_at text not null
);

-- A case of which something waits for a destination: since when, how often it was tried, whose turn it is, and why it is
-- parked.
create table outbox_case (
    destination  text    not null references destination (name),
    case_key     text    not null,
    since        text    not null,
    state        text    not null,
    attempts     integer not null,
    next_at      text    not null,
    leased_until text    not null,
    reason       text    not null,
    primary key (destination, case_key)
);

create index outbox_case_by_age on outbox_case (destination, state, since, case_key);

-- What of the case waits; written with the version that is on record.
create table outbox (
    destination text    not null references destination (name),
    case_key    text    not null,
    type        text    not null,
    id          text    not null,
    version     integer not null,
    primary key (destination, case_key, type, id)
);

-- What a destination holds: the digest of what it was sent last, and how it names that version itself.
create table delivered (
    destination text not null references destination (name),
    type        text not null,
    id          text not null,
    digest      text not null,
    etag        text not null,
    primary key (destination, type, id)
);
