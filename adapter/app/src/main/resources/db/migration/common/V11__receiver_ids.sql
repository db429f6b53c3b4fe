-- The id that a receiver which gives its own has for a resource.
alter table delivered add column their_id text not null default '';
