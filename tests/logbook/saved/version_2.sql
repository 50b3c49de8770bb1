-- Written by tests/scripts/write_saved_logbooks.
PRAGMA foreign_keys = OFF;
BEGIN;
CREATE TABLE entry_kind (
  kind    TEXT NOT NULL PRIMARY KEY,
  meaning TEXT NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO entry_kind VALUES ('finding', 'a found-torque test of one fastener');
INSERT INTO entry_kind VALUES ('joint', 'the fasteners that hold one part to another');
INSERT INTO entry_kind VALUES ('removal', 'fasteners coming out');
INSERT INTO entry_kind VALUES ('specification', 'the torque a source asks for');
INSERT INTO entry_kind VALUES ('start', 'the machine and the settings of this logbook');
INSERT INTO entry_kind VALUES ('strike', 'an earlier line counts no longer');
INSERT INTO entry_kind VALUES ('wrench', 'a torque wrench, or its new calibration');
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
INSERT INTO entry VALUES (1, '01a213ac-8abb-760d-9ba7-8b8e01dffd05', 'start', 'KB', '2026-03-02T08:00:00.000Z', '2026-11-25T17:06:44.539Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (2, '01a213ac-8ac7-7212-98fa-a4b56f40c76e', 'wrench', 'KB', '2026-03-02T08:01:00.000Z', '2026-11-25T17:06:44.551Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (3, '01a213ac-8ace-7d83-b221-e80ac594c456', 'joint', 'LM', '2026-03-02T08:02:00.000Z', '2026-11-25T17:06:44.558Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (4, '01a213ac-8ace-7f8e-b13c-cc549fbca6b0', 'specification', 'LM', '2026-03-02T08:02:00.000Z', '2026-11-25T17:06:44.558Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (5, '01a213ac-8ad5-79ac-915b-c5ad29583078', 'removal', 'KB', '2026-03-02T08:03:00.000Z', '2026-11-25T17:06:44.565Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (6, '01a213ac-8adc-7515-a26a-056c925ecc05', 'finding', 'KB', '2026-03-02T08:04:00.000Z', '2026-11-25T17:06:44.572Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (7, '01a213ac-8ae4-7220-b6d8-0a976e3db4bb', 'removal', 'KB', '2026-03-02T08:05:00.000Z', '2026-11-25T17:06:44.580Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (8, '01a213ac-8aec-7c7a-ada5-cbc927d5a0ea', 'strike', 'KB', '2026-03-02T08:06:00.000Z', '2026-11-25T17:06:44.588Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (9, '01a213b0-70a0-7000-8000-000000000001', 'wrench', 'KB', '2026-03-02T09:01:00.000Z', '2026-11-25T17:11:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (10, '01a213b1-5b00-7000-8000-000000000002', 'joint', 'KB', '2026-03-02T09:02:00.000Z', '2026-11-25T17:12:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
CREATE TABLE logbook_start (
  entry_id          TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  machine           TEXT NOT NULL CHECK (length(machine) > 0),
  unit              TEXT NOT NULL,
  tolerance_percent REAL NOT NULL CHECK (tolerance_percent > 0 AND tolerance_percent < 100),
  method_percent    REAL NOT NULL CHECK (method_percent > 0 AND method_percent < 100)
, tolerance_typed TEXT NOT NULL DEFAULT '', method_typed TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;
INSERT INTO logbook_start VALUES ('01a213ac-8abb-760d-9ba7-8b8e01dffd05', 'GB-1 speed-increaser gearbox', 'ft·lbf', 8.0, 2.0, '', '');
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
, range_typed TEXT NOT NULL DEFAULT '', graduation_typed TEXT NOT NULL DEFAULT '', accuracy_typed TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;
INSERT INTO wrench VALUES ('01a213ac-8ac7-7212-98fa-a4b56f40c76e', 'TW3', 'ft·lbf', 10.0, 75.0, 13.558179483314003, 101.68634612485502, 0.5, 'setting', 3.0, '77-3', '2026-02-10', 12, '', '', '');
INSERT INTO wrench VALUES ('01a213b0-70a0-7000-8000-000000000001', 'TW5', 'N·m', 10.0, 60.0, 10.0, 60.0, 0.5, 'setting', 4.0, '77-5', '2026-01-12', 12, '10 to 60 Nm', '0.5 Nm', '4 %');
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
, length_typed TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;
INSERT INTO joint VALUES ('01a213ac-8ace-7d83-b221-e80ac594c456', 'J12', 'oil cooler pipe flange', '3/8-16 UNC', 88.89999999999999, 'SAE 5', 4, 'rectangle 2x2', 1, 0, '');
INSERT INTO joint VALUES ('01a213b1-5b00-7000-8000-000000000002', 'J13', 'drain flange, 4 bolts', 'M8x1.25', 25.4, '8.8', 4, 'circle', 0, 0, '1 in');
CREATE TABLE joint_after (
  entry_id   TEXT NOT NULL REFERENCES joint (entry_id),
  after_code TEXT NOT NULL COLLATE NOCASE,
  PRIMARY KEY (entry_id, after_code)
) STRICT, WITHOUT ROWID;
INSERT INTO joint_after VALUES ('01a213ac-8ace-7d83-b221-e80ac594c456', 'J06');
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
INSERT INTO specification VALUES ('01a213ac-8ace-7f8e-b13c-cc549fbca6b0', 'J12', '30 ft-lb ±10%', '30 ft·lbf ±10%', 40.67453844994201, 36.60708460494781, 44.74199229493621, 'GB-1 Shop Manual rev C p. 27', 'oiled');
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
, other_length_typed TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;
INSERT INTO removal VALUES ('01a213ac-8ad5-79ac-915b-c5ad29583078', 'J12', 'normal', 1, 'C2', 'paint on the heads', 76.19999999999999, '', '', '');
INSERT INTO removal VALUES ('01a213ac-8ae4-7220-b6d8-0a976e3db4bb', 'J12', 'tight', 1, '', '', NULL, '', '', '');
CREATE TABLE removal_position (
  entry_id TEXT NOT NULL REFERENCES removal (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;
INSERT INTO removal_position VALUES ('01a213ac-8ad5-79ac-915b-c5ad29583078', 1);
INSERT INTO removal_position VALUES ('01a213ac-8ad5-79ac-915b-c5ad29583078', 2);
INSERT INTO removal_position VALUES ('01a213ac-8ad5-79ac-915b-c5ad29583078', 3);
INSERT INTO removal_position VALUES ('01a213ac-8ae4-7220-b6d8-0a976e3db4bb', 4);
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
, readings_typed TEXT NOT NULL DEFAULT '', radius_typed TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;
INSERT INTO finding VALUES ('01a213ac-8adc-7515-a26a-056c925ecc05', 'J12', 2, 'TW3', 'ft·lbf', '', 1.0, '12 in·lbf', 1.3558179483314001, 'backed-off', 'tight', '', '');
CREATE TABLE setting_reading (
  entry_id       TEXT NOT NULL REFERENCES finding (entry_id),
  pull           INTEGER NOT NULL CHECK (pull >= 1),   -- 1, 2, 3 in the order pulled
  setting        REAL NOT NULL CHECK (setting > 0),    -- on the wrench's scale
  applied_nm     REAL NOT NULL CHECK (applied_nm > 0), -- with the adapter, if any
  mark           TEXT NOT NULL CHECK (mark IN ('short', 'on', 'past', 'no-move')),
  offset_degrees REAL,                                 -- above zero: short of the line
  PRIMARY KEY (entry_id, pull)
) STRICT, WITHOUT ROWID;
INSERT INTO setting_reading VALUES ('01a213ac-8adc-7515-a26a-056c925ecc05', 1, 20.0, 27.116358966628006, 'short', NULL);
INSERT INTO setting_reading VALUES ('01a213ac-8adc-7515-a26a-056c925ecc05', 2, 25.0, 33.89544870828501, 'short', 6.0);
INSERT INTO setting_reading VALUES ('01a213ac-8adc-7515-a26a-056c925ecc05', 3, 28.0, 37.96290255327921, 'short', NULL);
INSERT INTO setting_reading VALUES ('01a213ac-8adc-7515-a26a-056c925ecc05', 4, 30.0, 40.67453844994201, 'on', NULL);
CREATE TABLE strike (
  entry_id  TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  struck_id TEXT NOT NULL REFERENCES entry (id),
  reason    TEXT NOT NULL CHECK (length(reason) > 0)
) STRICT, WITHOUT ROWID;
INSERT INTO strike VALUES ('01a213ac-8aec-7c7a-ada5-cbc927d5a0ea', '01a213ac-8ae4-7220-b6d8-0a976e3db4bb', 'wrong position');
CREATE INDEX entry_by_kind ON entry (kind, id);
CREATE INDEX wrench_by_name ON wrench (name, entry_id);
CREATE INDEX joint_by_code ON joint (code, entry_id);
CREATE INDEX specification_by_joint ON specification (joint_code, entry_id);
CREATE INDEX removal_by_joint ON removal (joint_code, entry_id);
CREATE INDEX finding_by_position ON finding (joint_code, position, entry_id);
CREATE INDEX strike_by_struck ON strike (struck_id);
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
CREATE TRIGGER strike_not_of_strike BEFORE INSERT ON strike
  WHEN (SELECT kind FROM entry WHERE id = NEW.struck_id) IN ('strike', 'start') BEGIN
  SELECT RAISE(ABORT, 'a strike or the first line cannot be struck');
END;
PRAGMA application_id = 1113024884;
PRAGMA user_version = 2;
COMMIT;
