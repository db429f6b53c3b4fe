-- When a version went on record; empty for those that were there before this was kept.
alter table resource_version add column stored_at text not null default '';

-- Which version of a resource is the current one, and since when.
create table current_version (
    type      text    not null,
    id        text    not null,
    version   integer not null,
    stored_at text    not null,
    primary key (type, id)
);

create index current_version_by_time on current_version (type, stored_at, id);

-- What the current version says at the elements that it can be searched by: a code with its system, an identifier with its
-- system, or the type and id of what it refers to.
create table search_value (
    type   text not null,
    path   text not null,
    value  text not null,
    id     text not null,
    system text not null,
    primary key (type, path, value, id, system)
);

create index search_value_of_resource on search_value (type, id);

-- Likewise times, each as the milliseconds from its beginning to its end.
create table search_time (
    type text   not null,
    path text   not null,
    low  bigint not null,
    high bigint not null,
    id   text   not null,
    primary key (type, id, path, low, high)
);

create index search_time_by_beginning on search_time (type, path, low, id);

-- Which definitions of searches the index was built by: with others it is built anew.
create table search_index (
    digest text not null primary key
);

create index case_resource_by_name on case_resource (type, id);
create index resource_version_by_time on resource_version (type, stored_at);
