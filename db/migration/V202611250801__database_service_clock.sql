-- The service's time as the database sees it. Records take their time from here at insert, so that no application clock
-- decides when the service was told. The offset is 0 except in a rehearsal, which only the embedded database allows.
create table service_clock (
    only_row      boolean     not null default true,
    offset_micros bigint      not null default 0,
    -- no record can carry a later time than this; kept on the embedded database only, null elsewhere
    reached       timestamptz,
    constraint service_clock_pk primary key (only_row),
    constraint service_clock_has_one_row check (only_row)
);

insert into service_clock default values;

-- whoever serves requests cannot move time
revoke insert, update, delete on service_clock from "${appRole}";

create function service_now() returns timestamptz
    language sql volatile
as
$$
    select clock_timestamp() + (select c.offset_micros from public.service_clock c) * interval '1 microsecond'
$$;
