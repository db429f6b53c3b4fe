-- Up to which time the warnings that time alone brings to a case are on record: null where none are, empty where a version
-- before this one did not say.
alter table checkpoint add column as_of text;
update checkpoint set as_of = '';
