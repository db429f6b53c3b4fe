-- When a version went on record; empty for those that were there before this was kept.
alter table resource_version add column stored_at text not null default '';

create index resource_version_by_time on resource_version (type, stored_at);

-- Which version of a resource is the current one, since when, the first case that it is of, and what it can be searched by:
-- its time, as milliseconds from the beginning to the end (null: it has none), and in words everything else, as IndexWords
-- writes it.
create table current_version (
    type      text    not null,
    id        text    not null,
    version   integer not null,
    stored_at text    not null,
    case_key  text    not null,
    low       bigint,
    high      bigint,
    words     text    not null,
    primary key (type, id)
);

create index current_version_by_case on current_version (case_key, type, id);
create index current_version_by_update on current_version (type, stored_at, id);
create index current_version_by_time on current_version (type, low, id);

-- In which cases a code or an identifier is, or was before it changed.
create table case_value (
    type     text not null,
    path     text not null,
    value    text not null,
    system   text not null,
    case_key text not null,
    primary key (type, path, value, system, case_key)
);

-- Further times, where a type has several.
create table further_time (
    type text   not null,
    id   text   not null,
    path text   not null,
    low  bigint not null,
    high bigint not null,
    primary key (type, id, path, low, high)
);

-- Which definitions of searches the index was built by: with others it is built anew.
create table search_index (
    digest text not null primary key
);
