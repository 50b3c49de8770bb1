-- The whole schema as the numbered steps leave it. Written by scripts/write_current_schema; a
-- new logbook is made of it. What each column means is told in the steps.

CREATE TABLE chain_end (
  line_id TEXT NOT NULL PRIMARY KEY REFERENCES entry (id)
) STRICT, WITHOUT ROWID;

CREATE TABLE disposition (
  entry_id      TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  deviation     TEXT NOT NULL COLLATE NOCASE CHECK (length(deviation) > 0),  -- its id in the audit
  rule          TEXT NOT NULL,
  joint_code    TEXT NOT NULL COLLATE NOCASE,
  position      INTEGER CHECK (position BETWEEN 1 AND 10000),  -- NULL for the joint as a whole
  evidence      TEXT NOT NULL CHECK (length(evidence) = 16),   -- fingerprint of what it rests on
  judged_on     TEXT NOT NULL,                                 -- what the audit said of it then
  decision      TEXT NOT NULL
                CHECK (decision IN ('use-as-is', 're-torque', 'renew', 'repair',
                                    'correct-record')),
  reason        TEXT NOT NULL CHECK (length(reason) > 0),
  second_person TEXT NOT NULL                                  -- '' where nobody else agreed
) STRICT, WITHOUT ROWID;

CREATE TABLE disposition_done (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES disposition (entry_id),
  what     TEXT NOT NULL CHECK (length(what) > 0)
) STRICT, WITHOUT ROWID;

CREATE TABLE disposition_part (
  entry_id  TEXT NOT NULL REFERENCES disposition (entry_id),
  deviation TEXT NOT NULL COLLATE NOCASE CHECK (length(deviation) > 0),  -- the id it has alone
  position  INTEGER CHECK (position BETWEEN 1 AND 10000),  -- NULL for the joint as a whole
  evidence  TEXT NOT NULL CHECK (length(evidence) = 16),   -- fingerprint of what it rests on
  PRIMARY KEY (entry_id, deviation)
) STRICT, WITHOUT ROWID;

CREATE TABLE entry (
  line       INTEGER PRIMARY KEY,           -- number in this file only
  id         TEXT NOT NULL UNIQUE,          -- UUID version 7 (RFC 9562), rises with time
  kind       TEXT NOT NULL REFERENCES entry_kind (kind),
  by_whom    TEXT NOT NULL CHECK (length(by_whom) BETWEEN 1 AND 80),
  done_at    TEXT NOT NULL CHECK (done_at GLOB '[0-9][0-9][0-9][0-9]-??-??T??:??:??.???Z'),
  entered_at TEXT NOT NULL CHECK (entered_at GLOB '[0-9][0-9][0-9][0-9]-??-??T??:??:??.???Z'),
  device     TEXT NOT NULL CHECK (length(device) = 36),
  CHECK (id GLOB '????????-????-7???-[89ab]???-????????????')
) STRICT;

CREATE TABLE entry_kind (
  kind    TEXT NOT NULL PRIMARY KEY,
  meaning TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE finding (
  entry_id      TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code    TEXT NOT NULL COLLATE NOCASE,
  position      INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  wrench_name   TEXT NOT NULL COLLATE NOCASE,
  scale_unit    TEXT NOT NULL,                            -- of the settings
  adapter       TEXT NOT NULL,                            -- in words; '' for none
  adapter_ratio REAL NOT NULL CHECK (adapter_ratio > 0),  -- applied torque over setting
  prevailing_typed TEXT NOT NULL,                         -- running torque; '' where not measured
  prevailing_nm REAL CHECK (prevailing_nm > 0),
  restart       TEXT NOT NULL CHECK (restart IN ('stacked', 'backed-off')),
  neighbours    TEXT CHECK (neighbours IN ('tight', 'slack'))
, readings_typed TEXT NOT NULL DEFAULT '', radius_typed TEXT NOT NULL DEFAULT '', adapter_extension_mm REAL CHECK (adapter_extension_mm > 0), adapter_wrench_length_mm REAL
  CHECK ((adapter_wrench_length_mm IS NULL) = (adapter_extension_mm IS NULL)
         AND adapter_wrench_length_mm > 0), adapter_angle_deg REAL
  CHECK ((adapter_angle_deg IS NULL) = (adapter_extension_mm IS NULL)
         AND adapter_angle_deg BETWEEN -180 AND 180), adapter_extension_typed TEXT NOT NULL DEFAULT '', adapter_wrench_length_typed TEXT NOT NULL DEFAULT '', adapter_angle_typed TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;

CREATE TABLE fluid (
  entry_id     TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  fluid        TEXT NOT NULL COLLATE NOCASE CHECK (length(fluid) > 0),
  move         TEXT NOT NULL CHECK (move IN ('drained', 'filled')),
  amount_ml    REAL NOT NULL CHECK (amount_ml > 0),
  amount_typed TEXT NOT NULL,
  note         TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE hold_point (
  entry_id     TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code         TEXT NOT NULL COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 32),
  what         TEXT NOT NULL CHECK (length(what) > 0),
  wait_seconds INTEGER CHECK (wait_seconds > 0)
) STRICT, WITHOUT ROWID;

CREATE TABLE hold_point_joint (                 -- no row where it stands before all joints
  entry_id   TEXT NOT NULL REFERENCES hold_point (entry_id),
  joint_code TEXT NOT NULL COLLATE NOCASE,
  PRIMARY KEY (entry_id, joint_code)
) STRICT, WITHOUT ROWID;

CREATE TABLE hold_point_step (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code     TEXT NOT NULL COLLATE NOCASE,
  move     TEXT NOT NULL CHECK (move IN ('begun', 'passed', 'closed')),
  note     TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE item (
  entry_id     TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code         TEXT NOT NULL COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 32),
  what         TEXT NOT NULL,
  count        INTEGER NOT NULL CHECK (count BETWEEN 1 AND 10000),
  before_joint TEXT NOT NULL COLLATE NOCASE     -- may not be closed without it; '' for none
) STRICT, WITHOUT ROWID;

CREATE TABLE item_return (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code     TEXT NOT NULL COLLATE NOCASE,
  count    INTEGER NOT NULL CHECK (count BETWEEN 1 AND 10000)
) STRICT, WITHOUT ROWID;

CREATE TABLE joint (
  entry_id  TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code      TEXT NOT NULL COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 32),
  holds     TEXT NOT NULL,
  size      TEXT NOT NULL,
  length_mm REAL CHECK (length_mm > 0),
  grade     TEXT NOT NULL,
  count     INTEGER NOT NULL CHECK (count BETWEEN 1 AND 10000),
  layout    TEXT NOT NULL,
  one_time  INTEGER NOT NULL CHECK (one_time IN (0, 1)),
  critical  INTEGER NOT NULL CHECK (critical IN (0, 1))
, length_typed TEXT NOT NULL DEFAULT '', bench      INTEGER NOT NULL DEFAULT 0 CHECK (bench IN (0, 1)), final_when TEXT NOT NULL DEFAULT '', order_text TEXT NOT NULL DEFAULT '', passes     TEXT NOT NULL DEFAULT '', live_load INTEGER NOT NULL DEFAULT 0 CHECK (live_load IN (0, 1)), into_material TEXT NOT NULL DEFAULT '', engaged_mm REAL CHECK (engaged_mm > 0 AND engaged_mm <= 100000), engaged_typed TEXT NOT NULL DEFAULT '', seat_material TEXT NOT NULL DEFAULT '', face_mm REAL CHECK (face_mm > 0 AND face_mm <= 100000), face_typed TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;

CREATE TABLE joint_after (
  entry_id   TEXT NOT NULL REFERENCES joint (entry_id),
  after_code TEXT NOT NULL COLLATE NOCASE,
  PRIMARY KEY (entry_id, after_code)
) STRICT, WITHOUT ROWID;

CREATE TABLE joint_covers (
  entry_id     TEXT NOT NULL REFERENCES joint (entry_id),
  covered_code TEXT NOT NULL COLLATE NOCASE,
  PRIMARY KEY (entry_id, covered_code)
) STRICT, WITHOUT ROWID;

CREATE TABLE joint_recheck (
  entry_id TEXT NOT NULL REFERENCES joint (entry_id),
  due      TEXT NOT NULL,               -- '7 days', '50 running h', '500 km' after the final value
  PRIMARY KEY (entry_id, due)
) STRICT, WITHOUT ROWID;

CREATE TABLE line_hash (
  entry_id      TEXT NOT NULL PRIMARY KEY REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  device_before TEXT NOT NULL,  -- hash of the line before by the same device; '' for its first
  file_before   TEXT NOT NULL,  -- hash of the line before in the file; '' for the first
  given_later   TEXT NOT NULL,  -- when, where the line was not hashed as it was written; else ''
  hash          TEXT NOT NULL
                CHECK (hash = '' OR (length(hash) = 64 AND hash NOT GLOB '*[^0-9a-f]*'))
) STRICT, WITHOUT ROWID;

CREATE TABLE logbook_start (
  entry_id          TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  machine           TEXT NOT NULL CHECK (length(machine) > 0),
  unit              TEXT NOT NULL,
  tolerance_percent REAL NOT NULL CHECK (tolerance_percent > 0 AND tolerance_percent < 100),
  method_percent    REAL NOT NULL CHECK (method_percent > 0 AND method_percent < 100)
, tolerance_typed TEXT NOT NULL DEFAULT '', method_typed TEXT NOT NULL DEFAULT '', angle_degrees REAL
  CHECK (angle_degrees > 0 AND angle_degrees <= 90), angle_typed TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;

CREATE TABLE photograph (
  entry_id     TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code   TEXT NOT NULL COLLATE NOCASE,  -- '' where it is about no joint: the machine
  deviation    TEXT NOT NULL COLLATE NOCASE,  -- its id in the audit; '' where it is of none
  note         TEXT NOT NULL,
  format       TEXT NOT NULL CHECK (format IN ('jpeg', 'png', 'webp')),
  width_px     INTEGER NOT NULL CHECK (width_px BETWEEN 1 AND 16384),
  height_px    INTEGER NOT NULL CHECK (height_px BETWEEN 1 AND 16384),
  length_bytes INTEGER NOT NULL CHECK (length_bytes BETWEEN 1 AND 8388608),
  sha256       TEXT NOT NULL REFERENCES photograph_bytes (sha256)
) STRICT, WITHOUT ROWID;

CREATE TABLE photograph_bytes (
  sha256 TEXT NOT NULL PRIMARY KEY
         CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  bytes  BLOB NOT NULL CHECK (length(bytes) BETWEEN 1 AND 8388608)
) STRICT;

CREATE TABLE photograph_position (
  entry_id TEXT NOT NULL REFERENCES photograph (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE pull (
  entry_id       TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code     TEXT NOT NULL COLLATE NOCASE,
  position       INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  wrench_name    TEXT NOT NULL COLLATE NOCASE,
  scale_unit     TEXT NOT NULL,                           -- of the setting
  restart        TEXT NOT NULL CHECK (restart IN ('stacked', 'backed-off')),
  setting        REAL NOT NULL CHECK (setting > 0),       -- on the wrench's scale
  mark           TEXT NOT NULL CHECK (mark IN ('short', 'no-move')),
  offset_degrees REAL CHECK (offset_degrees > 0),         -- short of the line; NULL where not read
  reading_typed  TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE recheck (
  entry_id       TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code     TEXT NOT NULL COLLATE NOCASE,
  turned_degrees REAL CHECK (turned_degrees > 0),        -- NULL where aligned
  counter        TEXT NOT NULL                           -- '1290 running h'; '' where not noted
) STRICT, WITHOUT ROWID;

CREATE TABLE recheck_position (
  entry_id TEXT NOT NULL REFERENCES recheck (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE removal (
  entry_id   TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code TEXT NOT NULL COLLATE NOCASE,
  broke      TEXT NOT NULL
             CHECK (broke IN ('normal', 'tight', 'seized', 'loose', 'sheared', 'empty')),
  marked     INTEGER NOT NULL CHECK (marked IN (0, 1)),
  bag        TEXT NOT NULL,
  note       TEXT NOT NULL,
  other_length_mm REAL CHECK (other_length_mm > 0),  -- what came out, where it is not
  other_size      TEXT NOT NULL,                     -- what the joint says; '' or NULL
  other_grade     TEXT NOT NULL                      -- where it is
, other_length_typed TEXT NOT NULL DEFAULT '', damaged_thread TEXT
  CHECK (damaged_thread IN ('fastener', 'hole', 'both'))) STRICT, WITHOUT ROWID;

CREATE TABLE removal_position (
  entry_id TEXT NOT NULL REFERENCES removal (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE renewal (
  entry_id   TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code TEXT NOT NULL COLLATE NOCASE
) STRICT, WITHOUT ROWID;

CREATE TABLE renewal_position (
  entry_id TEXT NOT NULL REFERENCES renewal (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE setting_reading (
  entry_id       TEXT NOT NULL REFERENCES finding (entry_id),
  pull           INTEGER NOT NULL CHECK (pull >= 1),   -- 1, 2, 3 in the order pulled
  setting        REAL NOT NULL CHECK (setting > 0),    -- on the wrench's scale
  applied_nm     REAL NOT NULL CHECK (applied_nm > 0), -- with the adapter, if any
  mark           TEXT NOT NULL CHECK (mark IN ('short', 'on', 'past', 'no-move')),
  offset_degrees REAL,                                 -- above zero: short of the line
  PRIMARY KEY (entry_id, pull)
) STRICT, WITHOUT ROWID;

CREATE TABLE signature (
  line_id    TEXT NOT NULL REFERENCES entry (id),
  public_key TEXT NOT NULL CHECK (length(public_key) = 64 AND public_key NOT GLOB '*[^0-9a-f]*'),
  by_whom    TEXT NOT NULL CHECK (length(by_whom) BETWEEN 1 AND 80),
  signed_at  TEXT NOT NULL CHECK (signed_at GLOB '[0-9][0-9][0-9][0-9]-??-??T??:??:??.???Z'),
  signature  TEXT NOT NULL CHECK (length(signature) = 128 AND signature NOT GLOB '*[^0-9a-f]*'),
  PRIMARY KEY (line_id, public_key, signed_at, by_whom)
) STRICT, WITHOUT ROWID;

CREATE TABLE specification (
  entry_id   TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code TEXT NOT NULL COLLATE NOCASE,
  text_typed TEXT NOT NULL CHECK (length(text_typed) > 0),
  procedure  TEXT NOT NULL,     -- the same, in the program's one way of writing it
  torque_nm  REAL,              -- last torque step; NULL where an angle step follows it
  low_nm     REAL,              -- limits that the source gives; NULL where it gives none
  high_nm    REAL,
  source     TEXT NOT NULL,     -- document, revision, page; '' where none was given
  condition  TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE specification_position (
  entry_id TEXT NOT NULL REFERENCES specification (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE strike (
  entry_id  TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  struck_id TEXT NOT NULL REFERENCES entry (id),
  reason    TEXT NOT NULL CHECK (length(reason) > 0)
) STRICT, WITHOUT ROWID;

CREATE TABLE stripe (
  entry_id             TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code           TEXT NOT NULL COLLATE NOCASE,
  teardown_mark_wiped  INTEGER NOT NULL CHECK (teardown_mark_wiped IN (0, 1)),
  counter              TEXT NOT NULL                     -- '1240 running h'; '' where not noted
) STRICT, WITHOUT ROWID;

CREATE TABLE stripe_position (
  entry_id TEXT NOT NULL REFERENCES stripe (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE tightening (
  entry_id       TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code     TEXT NOT NULL COLLATE NOCASE,
  pass           INTEGER NOT NULL CHECK (pass >= 1),
  kind           TEXT NOT NULL
                 CHECK (kind IN ('snug', 'torque', 'check', 'loosen', 'angle', 'renew')),
  target_nm      REAL,                                   -- what the plan asked for
  target_degrees REAL,
  wrench_name    TEXT NOT NULL COLLATE NOCASE,           -- '' where none was used
  setting        REAL CHECK (setting > 0),               -- on the wrench's scale
  scale_unit     TEXT NOT NULL,
  adapter        TEXT NOT NULL,
  adapter_ratio  REAL NOT NULL CHECK (adapter_ratio > 0),
  applied_nm     REAL,                                   -- at the fastener
  turned_degrees REAL,
  skipped_why    TEXT NOT NULL,                          -- '' where it was done
  second_check   INTEGER NOT NULL CHECK (second_check IN (0, 1))
, adapter_extension_mm REAL CHECK (adapter_extension_mm > 0), adapter_wrench_length_mm REAL
  CHECK ((adapter_wrench_length_mm IS NULL) = (adapter_extension_mm IS NULL)
         AND adapter_wrench_length_mm > 0), adapter_angle_deg REAL
  CHECK ((adapter_angle_deg IS NULL) = (adapter_extension_mm IS NULL)
         AND adapter_angle_deg BETWEEN -180 AND 180), adapter_extension_typed TEXT NOT NULL DEFAULT '', adapter_wrench_length_typed TEXT NOT NULL DEFAULT '', adapter_angle_typed TEXT NOT NULL DEFAULT '', seen TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;

CREATE TABLE tightening_position (
  entry_id TEXT NOT NULL REFERENCES tightening (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000), place INTEGER CHECK (place BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE wrench (
  entry_id         TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  name             TEXT NOT NULL COLLATE NOCASE CHECK (length(name) > 0),
  scale_unit       TEXT NOT NULL,
  scale_low        REAL NOT NULL CHECK (scale_low >= 0),           -- in scale_unit
  scale_high       REAL NOT NULL CHECK (scale_high > scale_low),   -- in scale_unit
  scale_low_nm     REAL NOT NULL,
  scale_high_nm    REAL NOT NULL,
  graduation       REAL NOT NULL CHECK (graduation > 0),           -- in scale_unit
  kind             TEXT NOT NULL CHECK (kind IN ('setting', 'indicating', 'electronic')),
  accuracy_percent REAL CHECK (accuracy_percent > 0 AND accuracy_percent < 100),
  serial           TEXT NOT NULL,
  calibrated_on    TEXT CHECK (calibrated_on GLOB '[0-9][0-9][0-9][0-9]-??-??'),
  valid_months     INTEGER NOT NULL CHECK (valid_months BETWEEN 1 AND 120)
, range_typed TEXT NOT NULL DEFAULT '', graduation_typed TEXT NOT NULL DEFAULT '', accuracy_typed TEXT NOT NULL DEFAULT '', found_off_percent REAL
  CHECK (found_off_percent > 0 AND found_off_percent < 100)) STRICT, WITHOUT ROWID;

INSERT INTO entry_kind (kind, meaning) VALUES
  ('disposition', 'the decision on a deviation that the audit found'),
  ('finding', 'a found-torque test of one fastener'),
  ('fluid', 'a fluid drained and measured, or filled again'),
  ('hold point', 'a safety gate that has to be passed first'),
  ('hold point step', 'a hold point begun, passed or closed again'),
  ('item', 'counted parts without a torque, such as clips and hoses'),
  ('item return', 'so many of an item back in their place'),
  ('joint', 'the fasteners that hold one part to another'),
  ('photograph', 'a photograph of the machine, a joint, positions or a deviation'),
  ('pull', 'one pull of a found-torque test that is under way'),
  ('recheck', 'a later look at the final stripes'),
  ('removal', 'fasteners coming out'),
  ('renewal', 'new fasteners that have arrived'),
  ('specification', 'the torque a source asks for'),
  ('start', 'the machine and the settings of this logbook'),
  ('strike', 'an earlier line counts no longer'),
  ('stripe', 'the final mark across fastener and part'),
  ('tightening', 'one pass over some positions of a joint, or its being left out'),
  ('wrench', 'a torque wrench, or its new calibration');

CREATE INDEX disposition_by_joint ON disposition (joint_code, entry_id);

CREATE INDEX disposition_by_joint_again ON disposition (joint_code, entry_id);

CREATE INDEX finding_by_position ON finding (joint_code, position, entry_id);

CREATE INDEX finding_by_position_again ON finding (joint_code, position, entry_id);

CREATE INDEX fluid_by_name ON fluid (fluid, entry_id);

CREATE INDEX hold_point_by_code ON hold_point (code, entry_id);

CREATE INDEX hold_point_step_by_code ON hold_point_step (code, entry_id);

CREATE INDEX item_by_code ON item (code, entry_id);

CREATE INDEX item_return_by_code ON item_return (code, entry_id);

CREATE INDEX joint_by_code ON joint (code, entry_id);

CREATE INDEX joint_by_code_again ON joint (code, entry_id);

CREATE INDEX line_hash_joining ON line_hash (entry_id) WHERE length(file_before) > 64;

CREATE INDEX photograph_by_joint ON photograph (joint_code, entry_id);

CREATE INDEX photograph_by_joint_again ON photograph (joint_code, entry_id);

CREATE INDEX photograph_by_sha256 ON photograph (sha256);

CREATE INDEX pull_by_position ON pull (joint_code, position, entry_id);

CREATE INDEX pull_by_position_again ON pull (joint_code, position, entry_id);

CREATE INDEX recheck_by_joint ON recheck (joint_code, entry_id);

CREATE INDEX recheck_by_joint_again ON recheck (joint_code, entry_id);

CREATE INDEX removal_by_joint ON removal (joint_code, entry_id);

CREATE INDEX removal_by_joint_again ON removal (joint_code, entry_id);

CREATE INDEX renewal_by_joint ON renewal (joint_code, entry_id);

CREATE INDEX renewal_by_joint_again ON renewal (joint_code, entry_id);

CREATE INDEX specification_by_joint ON specification (joint_code, entry_id);

CREATE INDEX specification_by_joint_again ON specification (joint_code, entry_id);

CREATE INDEX strike_by_struck ON strike (struck_id);

CREATE INDEX strike_by_struck_again ON strike (struck_id);

CREATE INDEX stripe_by_joint ON stripe (joint_code, entry_id);

CREATE INDEX stripe_by_joint_again ON stripe (joint_code, entry_id);

CREATE INDEX tightening_by_joint ON tightening (joint_code, entry_id);

CREATE INDEX tightening_by_joint_again ON tightening (joint_code, entry_id);

CREATE INDEX wrench_by_name ON wrench (name, entry_id);

CREATE INDEX wrench_by_name_again ON wrench (name, entry_id);

CREATE VIEW current_entry AS
  SELECT * FROM entry
  WHERE kind <> 'strike' AND id NOT IN (SELECT struck_id FROM strike);

CREATE VIEW current_joint AS
  SELECT e.line, j.*
  FROM joint j JOIN current_entry e ON e.id = j.entry_id
  WHERE j.entry_id = (SELECT max(o.entry_id)
                      FROM joint o JOIN current_entry c ON c.id = o.entry_id
                      WHERE o.code = j.code);

CREATE VIEW current_specification AS
  SELECT e.line, s.*
  FROM specification s JOIN current_entry e ON e.id = s.entry_id
  WHERE s.entry_id = (SELECT max(o.entry_id)
                      FROM specification o JOIN current_entry c ON c.id = o.entry_id
                      WHERE o.joint_code = s.joint_code
                        AND NOT EXISTS (SELECT 1 FROM specification_position p
                                        WHERE p.entry_id = o.entry_id));

CREATE VIEW current_specification_of_position AS
  SELECT e.line, p.position, s.*
  FROM specification s JOIN current_entry e ON e.id = s.entry_id
                       JOIN specification_position p ON p.entry_id = s.entry_id
  WHERE s.entry_id = (SELECT max(o.entry_id)
                      FROM specification o JOIN current_entry c ON c.id = o.entry_id
                                           JOIN specification_position q ON q.entry_id = o.entry_id
                      WHERE o.joint_code = s.joint_code AND q.position = p.position);

CREATE VIEW found_bracket AS
  WITH bound AS (
    SELECT entry_id,
           max(applied_nm) FILTER (WHERE mark IN ('short', 'no-move')) AS short_nm,
           min(applied_nm) FILTER (WHERE mark IN ('on', 'past'))       AS reached_nm,
           min(applied_nm) FILTER (WHERE mark = 'on')                  AS on_nm
    FROM setting_reading GROUP BY entry_id)
  SELECT e.line, f.joint_code, f.position, f.wrench_name, e.by_whom, e.done_at,
         b.short_nm, b.reached_nm,
         CASE WHEN b.short_nm IS NULL OR b.reached_nm IS NULL THEN NULL
              WHEN b.on_nm = b.reached_nm THEN b.reached_nm
              ELSE (b.short_nm + b.reached_nm) / 2 END AS best_nm
  FROM finding f JOIN bound b USING (entry_id) JOIN current_entry e ON e.id = f.entry_id;

CREATE VIEW settled AS
  SELECT d.deviation, d.decision, d.reason, e.by_whom, d.second_person, e.done_at, d.judged_on,
         e.line
  FROM disposition d JOIN current_entry e ON e.id = d.entry_id
  ORDER BY e.line;

CREATE VIEW specification_and_found AS
  SELECT j.code AS joint, f.position, j.holds, j.size, j.grade,
         s.procedure                                 AS specified,
         s.source,
         round(s.torque_nm, 2)                       AS specified_nm,
         round(s.torque_nm / 1.3558179483314004, 2)  AS specified_ftlbf,
         round(s.torque_nm / 0.1129848290276167, 1)  AS specified_inlbf,
         round(f.best_nm, 2)                         AS found_nm,
         round(f.best_nm / 1.3558179483314004, 2)    AS found_ftlbf,
         round(f.best_nm / 0.1129848290276167, 1)    AS found_inlbf,
         round(f.short_nm, 2)                        AS found_above_nm,
         round(f.reached_nm, 2)                      AS found_up_to_nm,
         round(f.best_nm / s.torque_nm, 3)           AS ratio,
         f.wrench_name AS wrench, f.by_whom, f.done_at, f.line
  FROM found_bracket f
  JOIN current_joint j ON j.code = f.joint_code
  LEFT JOIN specification s ON s.entry_id = coalesce(
      (SELECT o.entry_id FROM current_specification_of_position o
       WHERE o.joint_code = f.joint_code AND o.position = f.position),
      (SELECT w.entry_id FROM current_specification w WHERE w.joint_code = f.joint_code))
  ORDER BY j.entry_id, f.position, f.line;

CREATE VIEW tightened AS
  SELECT t.joint_code AS joint, p.position, t.pass, t.kind,
         round(t.target_nm, 2) AS target_nm, t.target_degrees,
         round(t.applied_nm, 2) AS applied_nm, t.turned_degrees,
         t.wrench_name AS wrench, t.skipped_why, t.second_check, t.seen, e.by_whom, e.done_at,
         e.line
  FROM tightening t JOIN current_entry e ON e.id = t.entry_id
                    JOIN tightening_position p ON p.entry_id = t.entry_id
  ORDER BY e.line, p.place, p.position;

CREATE TRIGGER chain_end_never_added BEFORE INSERT ON chain_end BEGIN
  SELECT RAISE(ABORT, 'the ends of merged copies follow from the hashes');
END;

CREATE TRIGGER chain_end_never_changed BEFORE UPDATE ON chain_end BEGIN
  SELECT RAISE(ABORT, 'the ends of merged copies follow from the hashes');
END;

CREATE TRIGGER chain_end_never_removed BEFORE DELETE ON chain_end
  WHEN coalesce(instr((SELECT file_before FROM line_hash ORDER BY entry_id DESC LIMIT 1),
                      (SELECT hash FROM line_hash WHERE entry_id = OLD.line_id)), 0) = 0 BEGIN
  SELECT RAISE(ABORT, 'the ends of merged copies follow from the hashes');
END;

CREATE TRIGGER disposition_done_never_changed BEFORE UPDATE ON disposition_done BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER disposition_done_never_removed BEFORE DELETE ON disposition_done BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER disposition_done_never_replaced BEFORE INSERT ON disposition_done
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER disposition_never_changed BEFORE UPDATE ON disposition BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER disposition_never_removed BEFORE DELETE ON disposition BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER disposition_never_replaced BEFORE INSERT ON disposition
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER disposition_part_never_changed BEFORE UPDATE ON disposition_part BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER disposition_part_never_removed BEFORE DELETE ON disposition_part BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER disposition_part_never_replaced BEFORE INSERT ON disposition_part
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER entry_hashed BEFORE INSERT ON entry
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'lines are written by boltwitness with their hashes, never otherwise');
END;

CREATE TRIGGER entry_in_line BEFORE INSERT ON entry
  WHEN NEW.line IS NOT (SELECT coalesce(max(line), 0) + 1 FROM entry) BEGIN
  SELECT RAISE(ABORT, 'lines are numbered one after the other, never otherwise');
END;

CREATE TRIGGER entry_in_time BEFORE INSERT ON entry
  WHEN NEW.id <= (SELECT max(id) FROM entry) OR NEW.id >= 'e677d21f' BEGIN
  SELECT RAISE(ABORT, 'ids rise from line to line, of years before 10000, never otherwise');
END;

CREATE TRIGGER entry_kind_never_added BEFORE INSERT ON entry_kind BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;

CREATE TRIGGER entry_kind_never_changed BEFORE UPDATE ON entry_kind BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;

CREATE TRIGGER entry_kind_never_removed BEFORE DELETE ON entry_kind BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;

CREATE TRIGGER entry_never_changed BEFORE UPDATE ON entry BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER entry_never_removed BEFORE DELETE ON entry BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER entry_never_replaced BEFORE INSERT ON entry
  WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR line = NEW.line) BEGIN
  SELECT RAISE(ABORT, 'lines are never replaced; strike the line and enter it again');
END;

CREATE TRIGGER entry_start_first BEFORE INSERT ON entry
  WHEN (NEW.kind = 'start') IS NOT (NOT EXISTS (SELECT 1 FROM entry)) BEGIN
  SELECT RAISE(ABORT, 'the start is the first line of a logbook and never a later one');
END;

CREATE TRIGGER finding_never_changed BEFORE UPDATE ON finding BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER finding_never_removed BEFORE DELETE ON finding BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER finding_never_replaced BEFORE INSERT ON finding
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER fluid_never_changed BEFORE UPDATE ON fluid BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER fluid_never_removed BEFORE DELETE ON fluid BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER fluid_never_replaced BEFORE INSERT ON fluid
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER hold_point_joint_never_changed BEFORE UPDATE ON hold_point_joint BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER hold_point_joint_never_removed BEFORE DELETE ON hold_point_joint BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER hold_point_joint_never_replaced BEFORE INSERT ON hold_point_joint
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER hold_point_never_changed BEFORE UPDATE ON hold_point BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER hold_point_never_removed BEFORE DELETE ON hold_point BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER hold_point_never_replaced BEFORE INSERT ON hold_point
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER hold_point_step_never_changed BEFORE UPDATE ON hold_point_step BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER hold_point_step_never_removed BEFORE DELETE ON hold_point_step BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER hold_point_step_never_replaced BEFORE INSERT ON hold_point_step
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER item_never_changed BEFORE UPDATE ON item BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER item_never_removed BEFORE DELETE ON item BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER item_never_replaced BEFORE INSERT ON item
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER item_return_never_changed BEFORE UPDATE ON item_return BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER item_return_never_removed BEFORE DELETE ON item_return BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER item_return_never_replaced BEFORE INSERT ON item_return
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER joint_after_never_changed BEFORE UPDATE ON joint_after BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER joint_after_never_removed BEFORE DELETE ON joint_after BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER joint_after_never_replaced BEFORE INSERT ON joint_after
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER joint_covers_never_changed BEFORE UPDATE ON joint_covers BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER joint_covers_never_removed BEFORE DELETE ON joint_covers BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER joint_covers_never_replaced BEFORE INSERT ON joint_covers
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER joint_never_changed BEFORE UPDATE ON joint BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER joint_never_removed BEFORE DELETE ON joint BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER joint_never_replaced BEFORE INSERT ON joint
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER joint_recheck_never_changed BEFORE UPDATE ON joint_recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER joint_recheck_never_removed BEFORE DELETE ON joint_recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER joint_recheck_never_replaced BEFORE INSERT ON joint_recheck
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER line_hash_never_changed BEFORE UPDATE ON line_hash
  WHEN OLD.hash <> '' OR NEW.hash = '' OR NEW.entry_id IS NOT OLD.entry_id BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER line_hash_never_removed BEFORE DELETE ON line_hash BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER line_hash_never_replaced BEFORE INSERT ON line_hash
  WHEN EXISTS (SELECT 1 FROM line_hash WHERE entry_id = NEW.entry_id) OR NEW.hash <> '' BEGIN
  SELECT RAISE(ABORT, 'the hash of a line is filled in when the line is complete and never after');
END;

CREATE TRIGGER logbook_start_never_changed BEFORE UPDATE ON logbook_start BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER logbook_start_never_removed BEFORE DELETE ON logbook_start BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER logbook_start_never_replaced BEFORE INSERT ON logbook_start
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER photograph_bytes_named BEFORE INSERT ON photograph_bytes
  WHEN sha256_of(NEW.bytes) IS NOT NEW.sha256 BEGIN
  SELECT RAISE(ABORT, 'photographs stand under their own SHA-256');
END;

CREATE TRIGGER photograph_bytes_never_changed BEFORE UPDATE ON photograph_bytes BEGIN
  SELECT RAISE(ABORT, 'photographs are never changed');
END;

CREATE TRIGGER photograph_bytes_never_removed BEFORE DELETE ON photograph_bytes BEGIN
  SELECT RAISE(ABORT, 'photographs are never removed');
END;

CREATE TRIGGER photograph_bytes_never_replaced BEFORE INSERT ON photograph_bytes
  WHEN EXISTS (SELECT 1 FROM photograph_bytes WHERE sha256 = NEW.sha256) BEGIN
  SELECT RAISE(ABORT, 'photographs are never replaced');
END;

CREATE TRIGGER photograph_never_changed BEFORE UPDATE ON photograph BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER photograph_never_removed BEFORE DELETE ON photograph BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER photograph_never_replaced BEFORE INSERT ON photograph
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER photograph_position_never_changed BEFORE UPDATE ON photograph_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER photograph_position_never_removed BEFORE DELETE ON photograph_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER photograph_position_never_replaced BEFORE INSERT ON photograph_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER pull_never_changed BEFORE UPDATE ON pull BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER pull_never_removed BEFORE DELETE ON pull BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER pull_never_replaced BEFORE INSERT ON pull
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER recheck_never_changed BEFORE UPDATE ON recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER recheck_never_removed BEFORE DELETE ON recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER recheck_never_replaced BEFORE INSERT ON recheck
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER recheck_position_never_changed BEFORE UPDATE ON recheck_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER recheck_position_never_removed BEFORE DELETE ON recheck_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER recheck_position_never_replaced BEFORE INSERT ON recheck_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER removal_never_changed BEFORE UPDATE ON removal BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER removal_never_removed BEFORE DELETE ON removal BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER removal_never_replaced BEFORE INSERT ON removal
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER removal_position_never_changed BEFORE UPDATE ON removal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER removal_position_never_removed BEFORE DELETE ON removal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER removal_position_never_replaced BEFORE INSERT ON removal_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER renewal_never_changed BEFORE UPDATE ON renewal BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER renewal_never_removed BEFORE DELETE ON renewal BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER renewal_never_replaced BEFORE INSERT ON renewal
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER renewal_position_never_changed BEFORE UPDATE ON renewal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER renewal_position_never_removed BEFORE DELETE ON renewal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER renewal_position_never_replaced BEFORE INSERT ON renewal_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER setting_reading_never_changed BEFORE UPDATE ON setting_reading BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER setting_reading_never_removed BEFORE DELETE ON setting_reading BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER setting_reading_never_replaced BEFORE INSERT ON setting_reading
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER signature_fits_its_line BEFORE INSERT ON signature
  WHEN NOT signature_fits((SELECT hash FROM line_hash WHERE entry_id = NEW.line_id), NEW.by_whom,
                          NEW.signed_at, NEW.public_key, NEW.signature) BEGIN
  SELECT RAISE(ABORT, 'signatures fit the line that they stand at');
END;

CREATE TRIGGER signature_never_changed BEFORE UPDATE ON signature BEGIN
  SELECT RAISE(ABORT, 'signatures are never changed');
END;

CREATE TRIGGER signature_never_removed BEFORE DELETE ON signature BEGIN
  SELECT RAISE(ABORT, 'signatures are never removed');
END;

CREATE TRIGGER signature_never_replaced BEFORE INSERT ON signature
  WHEN EXISTS (SELECT 1 FROM signature
               WHERE line_id = NEW.line_id AND public_key = NEW.public_key
                 AND signed_at = NEW.signed_at AND by_whom = NEW.by_whom) BEGIN
  SELECT RAISE(ABORT, 'signatures are never replaced');
END;

CREATE TRIGGER specification_never_changed BEFORE UPDATE ON specification BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER specification_never_removed BEFORE DELETE ON specification BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER specification_never_replaced BEFORE INSERT ON specification
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER specification_position_never_changed BEFORE UPDATE ON specification_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER specification_position_never_removed BEFORE DELETE ON specification_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER specification_position_never_replaced BEFORE INSERT ON specification_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER strike_never_changed BEFORE UPDATE ON strike BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER strike_never_removed BEFORE DELETE ON strike BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER strike_never_replaced BEFORE INSERT ON strike
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER strike_not_of_strike BEFORE INSERT ON strike
  WHEN (SELECT kind FROM entry WHERE id = NEW.struck_id) IN ('strike', 'start') BEGIN
  SELECT RAISE(ABORT, 'a strike or the first line cannot be struck');
END;

CREATE TRIGGER stripe_never_changed BEFORE UPDATE ON stripe BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER stripe_never_removed BEFORE DELETE ON stripe BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER stripe_never_replaced BEFORE INSERT ON stripe
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER stripe_position_never_changed BEFORE UPDATE ON stripe_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER stripe_position_never_removed BEFORE DELETE ON stripe_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER stripe_position_never_replaced BEFORE INSERT ON stripe_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER tightening_never_changed BEFORE UPDATE ON tightening BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER tightening_never_removed BEFORE DELETE ON tightening BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER tightening_never_replaced BEFORE INSERT ON tightening
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER tightening_position_never_changed BEFORE UPDATE ON tightening_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER tightening_position_never_removed BEFORE DELETE ON tightening_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER tightening_position_never_replaced BEFORE INSERT ON tightening_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER wrench_never_changed BEFORE UPDATE ON wrench BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;

CREATE TRIGGER wrench_never_removed BEFORE DELETE ON wrench BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;

CREATE TRIGGER wrench_never_replaced BEFORE INSERT ON wrench
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

PRAGMA user_version = 19;
