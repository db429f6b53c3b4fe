insert into case_facility (case_key, facility_id)
select distinct case_key, payload::json ->> 'facilityId' from ledger
union
select case_key, split_part(case_key, '/', 2) from case_head
where case_seq > 0 and case_key like 'case/%';

create trigger access_log_is_not_changed before update or delete or truncate on access_log
    for each statement execute function refuse_change();
