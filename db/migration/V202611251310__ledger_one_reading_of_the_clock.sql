-- One reading of the clock gives both times of an entry: with two readings, a writer held up between them could be sealed ahead
-- of one whose later time was smaller, and that one would never have been sealed.
create or replace function ledger_clock(site uuid, out recorded_at timestamptz, out written_at timestamptz)
    language plpgsql volatile as
$$
begin
    perform pg_current_xact_id();
    written_at := clock_timestamp();
    recorded_at := greatest(
        written_at + (select c.offset_micros from public.service_clock c) * interval '1 microsecond',
        (select h.recorded_at + interval '1 microsecond' from ledger_head h where h.site_id = site));
end
$$;
