-- Which facilities see a case: the one that numbered it and those that recorded something in it.
create table case_facility (
    case_key    text not null,
    facility_id text not null,
    primary key (case_key, facility_id)
);

create index case_facility_by_facility on case_facility (facility_id, case_key);

-- Who did what, and when: each entry chained by digests to the one before. An entry begins with its time.
create table access_log (
    number  bigint primary key,
    content text not null,
    link    text not null
);

create index access_log_by_time on access_log (substr(content, 1, 24));
