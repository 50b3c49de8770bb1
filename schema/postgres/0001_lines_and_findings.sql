-- The fleet: the lines of many logbooks, and what the program works out of each. Applied inside one
-- transaction by "fleet load"; see DEVELOPERS.md.
--
-- Every table that grows is parted by logbook into sixteen shares, so that a share can stand on
-- another server (step 3). Keys are those of the shares: PostgreSQL takes no foreign table beneath a
-- key of the whole, and since a logbook is in one share alone, its key is as good.

CREATE SCHEMA fleet;

CREATE TABLE fleet.step (
  step    integer PRIMARY KEY,
  made_at timestamptz NOT NULL DEFAULT now()
);

CREATE TABLE fleet.logbook (
  logbook       uuid PRIMARY KEY,      -- the id of its first line, by which its copies know each other
  machine       text NOT NULL,
  file          text NOT NULL,         -- its name when it was loaded last, without the folder
  lines         bigint NOT NULL,       -- how many it had when all of it was here last; 0 before
  ends          text NOT NULL,         -- the hashes of the ends of the log then; '' before
  worked_out_by text NOT NULL,         -- the version of the program that worked the findings out
  loaded_at     timestamptz NOT NULL
);
COMMENT ON TABLE fleet.logbook IS 'One row a logbook. Example: SELECT machine, file, lines FROM fleet.logbook ORDER BY machine';

-- The lines as they are in the logbook. None is ever changed or removed here either: that a line is
-- struck is said by a later one.
CREATE TABLE fleet.line (
  logbook    uuid NOT NULL,
  id         uuid NOT NULL,            -- rises from line to line
  kind       text NOT NULL,
  by_whom    text NOT NULL,
  done_at    timestamptz NOT NULL,
  entered_at timestamptz NOT NULL,
  device     text NOT NULL,
  hash       bytea NOT NULL,
  strikes    uuid,                     -- the line that this one strikes
  says       jsonb NOT NULL            -- its rows by table and column, as "export" has them
) PARTITION BY HASH (logbook);

-- What the program works out of the lines that count; made anew in one transaction whenever lines
-- have come. A torque never stands without how far it is certain.

-- Every found-torque test.
CREATE TABLE fleet.finding (
  logbook                  uuid NOT NULL,
  id                       uuid NOT NULL,     -- of its line
  line                     bigint NOT NULL,   -- number of its line in the logbook
  joint                    text NOT NULL,
  position                 integer NOT NULL,
  teardown                 uuid,              -- the line by which it came out; NULL where none is on record
  done_at                  timestamptz NOT NULL,
  used_on                  date NOT NULL,     -- the same as a day where it was loaded
  wrench                   text NOT NULL,
  serial                   text NOT NULL,     -- of the wrench; '' where it is not on record
  found_nm                 double precision,  -- NULL for a bound
  found_uncertainty_nm     double precision NOT NULL,  -- expanded, about 95 %
  found_low_nm             double precision,  -- of the bracket; NULL for an upper bound
  found_high_nm            double precision,  -- NULL for a lower bound
  evidence                 text NOT NULL CHECK (evidence IN ('A', 'B', 'C', 'X')),
  usable                   boolean NOT NULL,  -- one number, and not of grade X
  verdict                  text NOT NULL,
  ratio                    double precision,  -- found over specified
  ratio_uncertainty        double precision,
  tightened_nm             double precision,  -- what it was once tightened to: an estimate
  tightened_uncertainty_nm double precision,
  tightened_verdict        text NOT NULL,
  CHECK ((ratio IS NULL) = (ratio_uncertainty IS NULL)),
  CHECK ((tightened_nm IS NULL) = (tightened_uncertainty_nm IS NULL))
) PARTITION BY HASH (logbook);

-- Every position of every joint.
CREATE TABLE fleet.fastener (
  logbook           uuid NOT NULL,
  joint             text NOT NULL,
  position          integer NOT NULL,
  holds             text NOT NULL,
  size              text NOT NULL,
  length_mm         double precision,
  grade             text NOT NULL,
  joint_count       integer NOT NULL,
  specification     text NOT NULL,      -- the procedure; '' where there is none
  condition         text NOT NULL,
  source            text NOT NULL,
  specified_nm      double precision,   -- where it ends in a torque
  specified_low_nm  double precision,   -- the limits, those of one side NULL where there is none
  specified_high_nm double precision,
  limits_assumed    boolean NOT NULL,   -- the source gives none
  broke             text,               -- how it came loose; NULL while it is still in
  out_at            timestamptz,
  teardown          uuid,               -- the line by which it came out last
  finding           uuid,               -- the test that counts
  CHECK (specified_nm IS NULL OR specified_low_nm IS NOT NULL OR specified_high_nm IS NOT NULL)
) PARTITION BY HASH (logbook);

-- Every pass that was made with a wrench.
CREATE TABLE fleet.tightening (
  logbook   uuid NOT NULL,
  id        uuid NOT NULL,
  line      bigint NOT NULL,
  joint     text NOT NULL,
  positions integer[] NOT NULL,
  done_at   timestamptz NOT NULL,
  used_on   date NOT NULL,
  wrench    text NOT NULL,
  serial    text NOT NULL
) PARTITION BY HASH (logbook);

-- Every calibration on record.
CREATE TABLE fleet.calibration (
  logbook           uuid NOT NULL,
  wrench            text NOT NULL,
  serial            text NOT NULL,
  calibrated_on     date NOT NULL,
  told_at           timestamptz NOT NULL,  -- the first line that tells of it
  told_by           uuid NOT NULL,
  found_off_percent double precision,      -- NULL where the certificate does not tell
  is_off            boolean NOT NULL       -- further than was allowed for
) PARTITION BY HASH (logbook);

-- Every look at final stripes that has to be taken, now or later.
CREATE TABLE fleet.look (
  logbook        uuid NOT NULL,
  number         integer NOT NULL,
  joint          text NOT NULL,
  positions      integer[] NOT NULL,
  asked          text NOT NULL,            -- how long after; '' where the stripe has turned
  since_at       timestamptz NOT NULL,     -- the final stripe, or the last look
  turned_degrees double precision,         -- the last look found it turned
  due_at         timestamptz,              -- by the clock
  due_counter    double precision,         -- by the machine's counter, in counter_unit
  counter        double precision,         -- as far as it is known to have run
  counter_unit   text NOT NULL
) PARTITION BY HASH (logbook);

DO $$
DECLARE
  part  record;
  share integer;
BEGIN
  FOR part IN SELECT * FROM (VALUES ('line', 'logbook, id'), ('finding', 'logbook, id'),
                                    ('fastener', 'logbook, joint, position'),
                                    ('tightening', 'logbook, id'),
                                    ('calibration', 'logbook, wrench, calibrated_on'),
                                    ('look', 'logbook, number')) AS t (name, key)
  LOOP
    FOR share IN 0 .. 15 LOOP
      EXECUTE format('CREATE TABLE fleet.%I PARTITION OF fleet.%I (PRIMARY KEY (%s))
                        FOR VALUES WITH (MODULUS 16, REMAINDER %s)',
                     part.name || to_char(share, 'FM"_"00'), part.name, part.key, share);
    END LOOP;
  END LOOP;
END $$;

CREATE FUNCTION fleet.refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'lines are never changed; strike the line in its logbook and load that again';
END $$;

DO $$
DECLARE
  share integer;
BEGIN
  FOR share IN 0 .. 15 LOOP
    EXECUTE format('CREATE INDEX ON fleet.%I (logbook, strikes) WHERE strikes IS NOT NULL',
                   'line' || to_char(share, 'FM"_"00'));
    EXECUTE format('CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE OR TRUNCATE ON fleet.%I
                      FOR EACH STATEMENT EXECUTE FUNCTION fleet.refuse_change()',
                   'line' || to_char(share, 'FM"_"00'));
  END LOOP;
END $$;
CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE OR TRUNCATE ON fleet.line
  FOR EACH STATEMENT EXECUTE FUNCTION fleet.refuse_change();
