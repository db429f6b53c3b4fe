insert into case_facility (case_key, facility_id)
select distinct case_key, json_extract(payload, '$.facilityId') from ledger
union
select case_key, substr(case_key, 6, instr(substr(case_key, 6), '/') - 1) from case_head
where case_seq > 0 and case_key like 'case/%';

create trigger access_log_is_not_updated before update on access_log
begin
    select raise(abort, 'the access log is append-only');
end;

create trigger access_log_is_not_deleted before delete on access_log
begin
    select raise(abort, 'the access log is append-only');
end;
