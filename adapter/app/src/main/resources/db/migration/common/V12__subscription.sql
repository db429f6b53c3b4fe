-- Who is told of resources that fulfil a search, as FHIR has it.
create table subscription (
    id      text primary key,
    content text not null
);
