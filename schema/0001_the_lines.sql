-- The logbook, first version. Applied inside one transaction by the program; see DEVELOPERS.md.
--
-- Every line is a row of `entry` plus the rows of its kind, all written together and never changed
-- or removed: triggers at the end of this file see to that, in the sqlite3 shell as well. A wrong
-- line is struck by a later one. Numbers carry their unit in the column name; what a person typed
-- is kept beside them in a *_typed column. Flags are 0 or 1. Times are UTC, ISO 8601.

CREATE TABLE entry_kind (
  kind    TEXT NOT NULL PRIMARY KEY,
  meaning TEXT NOT NULL
) STRICT, WITHOUT ROWID;

INSERT INTO entry_kind (kind, meaning) VALUES
  ('start',         'the machine and the settings of this logbook'),
  ('wrench',        'a torque wrench, or its new calibration'),
  ('joint',         'the fasteners that hold one part to another'),
  ('specification', 'the torque a source asks for'),
  ('removal',       'fasteners coming out'),
  ('finding',       'a found-torque test of one fastener'),
  ('strike',        'an earlier line counts no longer');

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
CREATE INDEX entry_by_kind ON entry (kind, id);

CREATE TABLE logbook_start (
  entry_id          TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  machine           TEXT NOT NULL CHECK (length(machine) > 0),
  unit              TEXT NOT NULL,
  tolerance_percent REAL NOT NULL CHECK (tolerance_percent > 0 AND tolerance_percent < 100),
  method_percent    REAL NOT NULL CHECK (method_percent > 0 AND method_percent < 100)
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
) STRICT, WITHOUT ROWID;
CREATE INDEX wrench_by_name ON wrench (name, entry_id);

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
) STRICT, WITHOUT ROWID;
CREATE INDEX joint_by_code ON joint (code, entry_id);

CREATE TABLE joint_after (
  entry_id   TEXT NOT NULL REFERENCES joint (entry_id),
  after_code TEXT NOT NULL COLLATE NOCASE,
  PRIMARY KEY (entry_id, after_code)
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
CREATE INDEX specification_by_joint ON specification (joint_code, entry_id);

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
) STRICT, WITHOUT ROWID;
CREATE INDEX removal_by_joint ON removal (joint_code, entry_id);

CREATE TABLE removal_position (
  entry_id TEXT NOT NULL REFERENCES removal (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
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
) STRICT, WITHOUT ROWID;
CREATE INDEX finding_by_position ON finding (joint_code, position, entry_id);

CREATE TABLE setting_reading (
  entry_id       TEXT NOT NULL REFERENCES finding (entry_id),
  pull           INTEGER NOT NULL CHECK (pull >= 1),   -- 1, 2, 3 in the order pulled
  setting        REAL NOT NULL CHECK (setting > 0),    -- on the wrench's scale
  applied_nm     REAL NOT NULL CHECK (applied_nm > 0), -- with the adapter, if any
  mark           TEXT NOT NULL CHECK (mark IN ('short', 'on', 'past', 'no-move')),
  offset_degrees REAL,                                 -- above zero: short of the line
  PRIMARY KEY (entry_id, pull)
) STRICT, WITHOUT ROWID;

CREATE TABLE strike (
  entry_id  TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  struck_id TEXT NOT NULL REFERENCES entry (id),
  reason    TEXT NOT NULL CHECK (length(reason) > 0)
) STRICT, WITHOUT ROWID;
CREATE INDEX strike_by_struck ON strike (struck_id);

-- Views for people with the sqlite3 shell.

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
                      WHERE o.joint_code = s.joint_code);

-- The bracket of a found-torque test: the last pull that left the mark short and the first that
-- brought it on or past the line. Uncertainty, verdict and grade are the program's to compute.
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
  LEFT JOIN current_specification s ON s.joint_code = f.joint_code
  ORDER BY j.entry_id, f.position, f.line;

-- Nothing is overwritten. No UPDATE, no DELETE; no INSERT OR REPLACE over an old row (which would
-- remove it without firing a delete trigger); and the rows of an entry come with it, never later.

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

CREATE TRIGGER logbook_start_never_changed BEFORE UPDATE ON logbook_start BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER logbook_start_never_removed BEFORE DELETE ON logbook_start BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER logbook_start_never_replaced BEFORE INSERT ON logbook_start
  WHEN EXISTS (SELECT 1 FROM logbook_start WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER wrench_never_changed BEFORE UPDATE ON wrench BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER wrench_never_removed BEFORE DELETE ON wrench BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER wrench_never_replaced BEFORE INSERT ON wrench
  WHEN EXISTS (SELECT 1 FROM wrench WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER joint_never_changed BEFORE UPDATE ON joint BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER joint_never_removed BEFORE DELETE ON joint BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER joint_never_replaced BEFORE INSERT ON joint
  WHEN EXISTS (SELECT 1 FROM joint WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER joint_after_never_changed BEFORE UPDATE ON joint_after BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER joint_after_never_removed BEFORE DELETE ON joint_after BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER joint_after_never_replaced BEFORE INSERT ON joint_after
  WHEN EXISTS (SELECT 1 FROM joint_after WHERE entry_id = NEW.entry_id AND after_code = NEW.after_code)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER specification_never_changed BEFORE UPDATE ON specification BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER specification_never_removed BEFORE DELETE ON specification BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER specification_never_replaced BEFORE INSERT ON specification
  WHEN EXISTS (SELECT 1 FROM specification WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER removal_never_changed BEFORE UPDATE ON removal BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER removal_never_removed BEFORE DELETE ON removal BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER removal_never_replaced BEFORE INSERT ON removal
  WHEN EXISTS (SELECT 1 FROM removal WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER removal_position_never_changed BEFORE UPDATE ON removal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER removal_position_never_removed BEFORE DELETE ON removal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER removal_position_never_replaced BEFORE INSERT ON removal_position
  WHEN EXISTS (SELECT 1 FROM removal_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER finding_never_changed BEFORE UPDATE ON finding BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER finding_never_removed BEFORE DELETE ON finding BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER finding_never_replaced BEFORE INSERT ON finding
  WHEN EXISTS (SELECT 1 FROM finding WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER setting_reading_never_changed BEFORE UPDATE ON setting_reading BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER setting_reading_never_removed BEFORE DELETE ON setting_reading BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER setting_reading_never_replaced BEFORE INSERT ON setting_reading
  WHEN EXISTS (SELECT 1 FROM setting_reading WHERE entry_id = NEW.entry_id AND pull = NEW.pull)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER strike_never_changed BEFORE UPDATE ON strike BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER strike_never_removed BEFORE DELETE ON strike BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER strike_never_replaced BEFORE INSERT ON strike
  WHEN EXISTS (SELECT 1 FROM strike WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

-- A strike cannot itself be struck: what was struck by mistake is entered again.
CREATE TRIGGER strike_not_of_strike BEFORE INSERT ON strike
  WHEN (SELECT kind FROM entry WHERE id = NEW.struck_id) IN ('strike', 'start') BEGIN
  SELECT RAISE(ABORT, 'a strike or the first line cannot be struck');
END;
