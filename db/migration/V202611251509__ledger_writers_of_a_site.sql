-- A writer says for which site it writes, so that a stuck one, or a long import, holds back the sealing of its own site only.
-- The lock is shared: writers do not wait for each other. Taken first and held until the commit is seen; the clock comes after.
create or replace function ledger_clock(site uuid, out recorded_at timestamptz, out written_at timestamptz)
    language plpgsql volatile as
$$
begin
    perform pg_advisory_xact_lock_shared(19540, hashtext(site::text));
    written_at := clock_timestamp();
    recorded_at := greatest(
        written_at + (select c.offset_micros from public.service_clock c) * interval '1 microsecond',
        (select h.recorded_at + interval '1 microsecond' from ledger_head h where h.site_id = site));
end
$$;
