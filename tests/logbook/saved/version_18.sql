-- Written by tests/scripts/write_saved_logbooks.
PRAGMA foreign_keys = OFF;
BEGIN;
CREATE TABLE entry_kind (
  kind    TEXT NOT NULL PRIMARY KEY,
  meaning TEXT NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO entry_kind VALUES ('disposition', 'the decision on a deviation that the audit found');
INSERT INTO entry_kind VALUES ('finding', 'a found-torque test of one fastener');
INSERT INTO entry_kind VALUES ('fluid', 'a fluid drained and measured, or filled again');
INSERT INTO entry_kind VALUES ('hold point', 'a safety gate that has to be passed first');
INSERT INTO entry_kind VALUES ('hold point step', 'a hold point begun, passed or closed again');
INSERT INTO entry_kind VALUES ('item', 'counted parts without a torque, such as clips and hoses');
INSERT INTO entry_kind VALUES ('item return', 'so many of an item back in their place');
INSERT INTO entry_kind VALUES ('joint', 'the fasteners that hold one part to another');
INSERT INTO entry_kind VALUES ('photograph', 'a photograph of the machine, a joint, positions or a deviation');
INSERT INTO entry_kind VALUES ('pull', 'one pull of a found-torque test that is under way');
INSERT INTO entry_kind VALUES ('recheck', 'a later look at the final stripes');
INSERT INTO entry_kind VALUES ('removal', 'fasteners coming out');
INSERT INTO entry_kind VALUES ('renewal', 'new fasteners that have arrived');
INSERT INTO entry_kind VALUES ('specification', 'the torque a source asks for');
INSERT INTO entry_kind VALUES ('start', 'the machine and the settings of this logbook');
INSERT INTO entry_kind VALUES ('strike', 'an earlier line counts no longer');
INSERT INTO entry_kind VALUES ('stripe', 'the final mark across fastener and part');
INSERT INTO entry_kind VALUES ('tightening', 'one pass over some positions of a joint, or its being left out');
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
INSERT INTO entry VALUES (11, '01a213b2-4560-7000-8000-000000000003', 'fluid', 'LM', '2026-03-02T09:03:00.000Z', '2026-11-25T17:13:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (12, '01a213b3-2fc0-7000-8000-000000000004', 'item', 'LM', '2026-03-02T09:04:00.000Z', '2026-11-25T17:14:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (13, '01a213b4-1a20-7000-8000-000000000005', 'tightening', 'LM', '2026-03-02T09:05:00.000Z', '2026-11-25T17:15:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (14, '01a213b5-0480-7000-8000-000000000006', 'wrench', 'KB', '2026-03-02T09:06:00.000Z', '2026-11-25T17:16:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (15, '01a213b5-eee0-7000-8000-000000000007', 'disposition', 'KB', '2026-03-02T09:07:00.000Z', '2026-11-25T17:17:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (16, '01a213b6-d940-7000-8000-000000000008', 'removal', 'LM', '2026-03-02T09:08:00.000Z', '2026-11-25T17:18:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (17, '01a213b7-c3a0-7000-8000-000000000009', 'finding', 'KB', '2026-03-02T09:09:00.000Z', '2026-11-25T17:19:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (18, '01a213b8-ae00-7000-8000-00000000000a', 'disposition', 'KB', '2026-03-02T09:10:00.000Z', '2026-11-25T17:20:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (19, '01a213b9-9860-7000-8000-00000000000b', 'joint', 'LM', '2026-03-02T09:11:00.000Z', '2026-11-25T17:21:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (20, '01a213ba-82c0-7000-8000-00000000000c', 'tightening', 'LM', '2026-03-02T09:12:00.000Z', '2026-11-25T17:22:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (21, '01a213bb-6d20-7000-8000-00000000000d', 'joint', 'LM', '2026-03-02T09:13:00.000Z', '2026-11-25T17:23:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (22, '01a213bc-5780-7000-8000-00000000000e', 'removal', 'KB', '2026-03-02T09:14:00.000Z', '2026-11-25T17:24:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
INSERT INTO entry VALUES (23, '01a213bd-41e0-7000-8000-00000000000f', 'photograph', 'KB', '2026-03-02T09:15:00.000Z', '2026-11-25T17:25:00.000Z', 'be119e6c-b08e-45e1-9f69-01ef9ff41da6');
CREATE TABLE logbook_start (
  entry_id          TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  machine           TEXT NOT NULL CHECK (length(machine) > 0),
  unit              TEXT NOT NULL,
  tolerance_percent REAL NOT NULL CHECK (tolerance_percent > 0 AND tolerance_percent < 100),
  method_percent    REAL NOT NULL CHECK (method_percent > 0 AND method_percent < 100)
, tolerance_typed TEXT NOT NULL DEFAULT '', method_typed TEXT NOT NULL DEFAULT '', angle_degrees REAL
  CHECK (angle_degrees > 0 AND angle_degrees <= 90), angle_typed TEXT NOT NULL DEFAULT '') STRICT, WITHOUT ROWID;
INSERT INTO logbook_start VALUES ('01a213ac-8abb-760d-9ba7-8b8e01dffd05', 'GB-1 speed-increaser gearbox', 'ft·lbf', 8.0, 2.0, '', '', NULL, '');
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
INSERT INTO wrench VALUES ('01a213ac-8ac7-7212-98fa-a4b56f40c76e', 'TW3', 'ft·lbf', 10.0, 75.0, 13.558179483314003, 101.68634612485502, 0.5, 'setting', 3.0, '77-3', '2026-02-10', 12, '', '', '', NULL);
INSERT INTO wrench VALUES ('01a213b0-70a0-7000-8000-000000000001', 'TW5', 'N·m', 10.0, 60.0, 10.0, 60.0, 0.5, 'setting', 4.0, '77-5', '2026-01-12', 12, '10 to 60 Nm', '0.5 Nm', '4 %', NULL);
INSERT INTO wrench VALUES ('01a213b5-0480-7000-8000-000000000006', 'TW5', 'N·m', 10.0, 60.0, 10.0, 60.0, 0.5, 'setting', 4.0, '77-5', '2026-03-01', 12, '10 to 60 Nm', '0.5 Nm', '4 %', 6.5);
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
INSERT INTO joint VALUES ('01a213ac-8ace-7d83-b221-e80ac594c456', 'J12', 'oil cooler pipe flange', '3/8-16 UNC', 88.89999999999999, 'SAE 5', 4, 'rectangle 2x2', 1, 0, '', 0, '', '', '', 0, '', NULL, '', '', NULL, '');
INSERT INTO joint VALUES ('01a213b1-5b00-7000-8000-000000000002', 'J13', 'drain flange, 4 bolts', 'M8x1.25', 25.4, '8.8', 4, 'circle', 0, 0, '1 in', 0, '', '', '', 0, '', NULL, '', '', NULL, '');
INSERT INTO joint VALUES ('01a213b9-9860-7000-8000-00000000000b', 'J14', 'brake caliper', 'M10x1.5', 30.0, '10.9', 2, 'line', 0, 1, '30mm', 0, '', '', '', 1, '', NULL, '', '', NULL, '');
INSERT INTO joint VALUES ('01a213bb-6d20-7000-8000-00000000000d', 'J15', 'name plate bracket', 'M6x1', 16.0, '8.8', 2, 'line', 0, 0, '16mm', 0, '', '', '', 0, 'EN AC-46000', 12.0, '12mm', 'S235', 10.0, '10mm');
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
, other_length_typed TEXT NOT NULL DEFAULT '', damaged_thread TEXT
  CHECK (damaged_thread IN ('fastener', 'hole', 'both'))) STRICT, WITHOUT ROWID;
INSERT INTO removal VALUES ('01a213ac-8ad5-79ac-915b-c5ad29583078', 'J12', 'normal', 1, 'C2', 'paint on the heads', 76.19999999999999, '', '', '', NULL);
INSERT INTO removal VALUES ('01a213ac-8ae4-7220-b6d8-0a976e3db4bb', 'J12', 'tight', 1, '', '', NULL, '', '', '', NULL);
INSERT INTO removal VALUES ('01a213b6-d940-7000-8000-000000000008', 'J13', 'seized', 1, 'D1', 'two turns, then by hand', NULL, '', '', '', 'hole');
INSERT INTO removal VALUES ('01a213bc-5780-7000-8000-00000000000e', 'J15', 'loose', 0, 'D3', 'hashed as it was written', NULL, '', '', '', NULL);
CREATE TABLE removal_position (
  entry_id TEXT NOT NULL REFERENCES removal (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;
INSERT INTO removal_position VALUES ('01a213ac-8ad5-79ac-915b-c5ad29583078', 1);
INSERT INTO removal_position VALUES ('01a213ac-8ad5-79ac-915b-c5ad29583078', 2);
INSERT INTO removal_position VALUES ('01a213ac-8ad5-79ac-915b-c5ad29583078', 3);
INSERT INTO removal_position VALUES ('01a213ac-8ae4-7220-b6d8-0a976e3db4bb', 4);
INSERT INTO removal_position VALUES ('01a213b6-d940-7000-8000-000000000008', 2);
INSERT INTO removal_position VALUES ('01a213bc-5780-7000-8000-00000000000e', 1);
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
INSERT INTO finding VALUES ('01a213ac-8adc-7515-a26a-056c925ecc05', 'J12', 2, 'TW3', 'ft·lbf', '', 1.0, '12 in·lbf', 1.3558179483314001, 'backed-off', 'tight', '', '', NULL, NULL, NULL, '', '', '');
INSERT INTO finding VALUES ('01a213b7-c3a0-7000-8000-000000000009', 'J13', 4, 'TW5', 'N·m', '', 1.25, '', NULL, 'stacked', NULL, '16s 18s 20o 22p', '', 50.0, 200.0, 0.0, '50mm', '200mm', '');
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
INSERT INTO setting_reading VALUES ('01a213b7-c3a0-7000-8000-000000000009', 1, 16.0, 20.0, 'short', NULL);
INSERT INTO setting_reading VALUES ('01a213b7-c3a0-7000-8000-000000000009', 2, 18.0, 22.5, 'short', NULL);
INSERT INTO setting_reading VALUES ('01a213b7-c3a0-7000-8000-000000000009', 3, 20.0, 25.0, 'on', NULL);
INSERT INTO setting_reading VALUES ('01a213b7-c3a0-7000-8000-000000000009', 4, 22.0, 27.5, 'past', NULL);
CREATE TABLE strike (
  entry_id  TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  struck_id TEXT NOT NULL REFERENCES entry (id),
  reason    TEXT NOT NULL CHECK (length(reason) > 0)
) STRICT, WITHOUT ROWID;
INSERT INTO strike VALUES ('01a213ac-8aec-7c7a-ada5-cbc927d5a0ea', '01a213ac-8ae4-7220-b6d8-0a976e3db4bb', 'wrong position');
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
CREATE TABLE specification_position (
  entry_id TEXT NOT NULL REFERENCES specification (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE fluid (
  entry_id     TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  fluid        TEXT NOT NULL COLLATE NOCASE CHECK (length(fluid) > 0),
  move         TEXT NOT NULL CHECK (move IN ('drained', 'filled')),
  amount_ml    REAL NOT NULL CHECK (amount_ml > 0),
  amount_typed TEXT NOT NULL,
  note         TEXT NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO fluid VALUES ('01a213b2-4560-7000-8000-000000000003', 'gear oil', 'drained', 650.0, '650 mL', 'from the cooler');
CREATE TABLE item (
  entry_id     TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code         TEXT NOT NULL COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 32),
  what         TEXT NOT NULL,
  count        INTEGER NOT NULL CHECK (count BETWEEN 1 AND 10000),
  before_joint TEXT NOT NULL COLLATE NOCASE     -- may not be closed without it; '' for none
) STRICT, WITHOUT ROWID;
INSERT INTO item VALUES ('01a213b3-2fc0-7000-8000-000000000004', 'CL1', 'hose clips of the oil cooler', 6, 'J12');
CREATE TABLE item_return (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code     TEXT NOT NULL COLLATE NOCASE,
  count    INTEGER NOT NULL CHECK (count BETWEEN 1 AND 10000)
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
CREATE TABLE renewal (
  entry_id   TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code TEXT NOT NULL COLLATE NOCASE
) STRICT, WITHOUT ROWID;
CREATE TABLE renewal_position (
  entry_id TEXT NOT NULL REFERENCES renewal (entry_id),
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
INSERT INTO tightening VALUES ('01a213b4-1a20-7000-8000-000000000005', 'J13', 1, 'torque', 25.0, NULL, 'TW5', 25.0, 'N·m', '', 1.0, 25.0, NULL, '', 0, NULL, NULL, NULL, '', '', '', '');
INSERT INTO tightening VALUES ('01a213ba-82c0-7000-8000-00000000000c', 'J13', 1, 'torque', 25.0, NULL, 'TW5', 25.0, 'N·m', '', 1.0, 25.0, NULL, '', 0, NULL, NULL, NULL, '', '', '', 'thread bright, seat flat');
CREATE TABLE tightening_position (
  entry_id TEXT NOT NULL REFERENCES tightening (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000), place INTEGER CHECK (place BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;
INSERT INTO tightening_position VALUES ('01a213b4-1a20-7000-8000-000000000005', 1, NULL);
INSERT INTO tightening_position VALUES ('01a213b4-1a20-7000-8000-000000000005', 3, NULL);
INSERT INTO tightening_position VALUES ('01a213ba-82c0-7000-8000-00000000000c', 2, 2);
INSERT INTO tightening_position VALUES ('01a213ba-82c0-7000-8000-00000000000c', 4, 1);
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
INSERT INTO disposition VALUES ('01a213b5-eee0-7000-8000-000000000007', 'no-source:J13', 'no source', 'J13', NULL, '0123456789abcdef', 'no specification', 'use-as-is', 'the plate beside it was read aloud', 'LM');
INSERT INTO disposition VALUES ('01a213b8-ae00-7000-8000-00000000000a', 'damaged-thread:J13/02', 'damaged thread', 'J13', 2, 'fedcba9876543210', 'thread of the hole damaged', 'repair', 'insert, same thread', '');
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
CREATE TABLE disposition_part (
  entry_id  TEXT NOT NULL REFERENCES disposition (entry_id),
  deviation TEXT NOT NULL COLLATE NOCASE CHECK (length(deviation) > 0),  -- the id it has alone
  position  INTEGER CHECK (position BETWEEN 1 AND 10000),  -- NULL for the joint as a whole
  evidence  TEXT NOT NULL CHECK (length(evidence) = 16),   -- fingerprint of what it rests on
  PRIMARY KEY (entry_id, deviation)
) STRICT, WITHOUT ROWID;
INSERT INTO disposition_part VALUES ('01a213b8-ae00-7000-8000-00000000000a', 'damaged-thread:J13/02', 2, 'fedcba9876543210');
CREATE TABLE disposition_done (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES disposition (entry_id),
  what     TEXT NOT NULL CHECK (length(what) > 0)
) STRICT, WITHOUT ROWID;
INSERT INTO disposition_done VALUES ('01a213b8-ae00-7000-8000-00000000000a', 'insert set and gauged');
CREATE TABLE line_hash (
  entry_id      TEXT NOT NULL PRIMARY KEY REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  device_before TEXT NOT NULL,  -- hash of the line before by the same device; '' for its first
  file_before   TEXT NOT NULL,  -- hash of the line before in the file; '' for the first
  given_later   TEXT NOT NULL,  -- when, where the line was not hashed as it was written; else ''
  hash          TEXT NOT NULL
                CHECK (hash = '' OR (length(hash) = 64 AND hash NOT GLOB '*[^0-9a-f]*'))
) STRICT, WITHOUT ROWID;
INSERT INTO line_hash VALUES ('01a213ac-8abb-760d-9ba7-8b8e01dffd05', '', '', 'schema 13', 'abdba3cd9f7a239913da9bd209ea1434c1f036aeae93b50bf60a49deb5dd35a4');
INSERT INTO line_hash VALUES ('01a213ac-8ac7-7212-98fa-a4b56f40c76e', 'abdba3cd9f7a239913da9bd209ea1434c1f036aeae93b50bf60a49deb5dd35a4', 'abdba3cd9f7a239913da9bd209ea1434c1f036aeae93b50bf60a49deb5dd35a4', 'schema 13', 'fb4731375e85ac9f4e04e4358fa4cca969d1fc1ce19dce01d1c992b8107e2081');
INSERT INTO line_hash VALUES ('01a213ac-8ace-7d83-b221-e80ac594c456', 'fb4731375e85ac9f4e04e4358fa4cca969d1fc1ce19dce01d1c992b8107e2081', 'fb4731375e85ac9f4e04e4358fa4cca969d1fc1ce19dce01d1c992b8107e2081', 'schema 13', '5af098f80ec5d123e1154da5abc066285a5ff2d480a9bffb6a6eb3dd76b145af');
INSERT INTO line_hash VALUES ('01a213ac-8ace-7f8e-b13c-cc549fbca6b0', '5af098f80ec5d123e1154da5abc066285a5ff2d480a9bffb6a6eb3dd76b145af', '5af098f80ec5d123e1154da5abc066285a5ff2d480a9bffb6a6eb3dd76b145af', 'schema 13', '73b0916d3a33c98979d59989faa5111938db7cc0a34a963b30ee755f0a4cf7c5');
INSERT INTO line_hash VALUES ('01a213ac-8ad5-79ac-915b-c5ad29583078', '73b0916d3a33c98979d59989faa5111938db7cc0a34a963b30ee755f0a4cf7c5', '73b0916d3a33c98979d59989faa5111938db7cc0a34a963b30ee755f0a4cf7c5', 'schema 13', '48e9c78fea281e933e7809b784aad0edb546fe9b1903d0f34634e89d4d6f2921');
INSERT INTO line_hash VALUES ('01a213ac-8adc-7515-a26a-056c925ecc05', '48e9c78fea281e933e7809b784aad0edb546fe9b1903d0f34634e89d4d6f2921', '48e9c78fea281e933e7809b784aad0edb546fe9b1903d0f34634e89d4d6f2921', 'schema 13', 'fb9c7bcdb01dad3bdb4d61c2974692cabc9a959367d2c0f36e42af5e7b2bd222');
INSERT INTO line_hash VALUES ('01a213ac-8ae4-7220-b6d8-0a976e3db4bb', 'fb9c7bcdb01dad3bdb4d61c2974692cabc9a959367d2c0f36e42af5e7b2bd222', 'fb9c7bcdb01dad3bdb4d61c2974692cabc9a959367d2c0f36e42af5e7b2bd222', 'schema 13', 'f8213017a04e6d6cb5f8a08c8ef02be7021260bf2fbb7f9a66edef4b01a8868d');
INSERT INTO line_hash VALUES ('01a213ac-8aec-7c7a-ada5-cbc927d5a0ea', 'f8213017a04e6d6cb5f8a08c8ef02be7021260bf2fbb7f9a66edef4b01a8868d', 'f8213017a04e6d6cb5f8a08c8ef02be7021260bf2fbb7f9a66edef4b01a8868d', 'schema 13', 'afbc13c10f863773be72e34ddf10409b0820aac7e69fb4bfea16ea458fd73a85');
INSERT INTO line_hash VALUES ('01a213b0-70a0-7000-8000-000000000001', 'afbc13c10f863773be72e34ddf10409b0820aac7e69fb4bfea16ea458fd73a85', 'afbc13c10f863773be72e34ddf10409b0820aac7e69fb4bfea16ea458fd73a85', 'schema 13', 'd2c6fc54bc5614284d4ab11a05ae452aaaa7c27d19619ab191b850ccfb5f45e7');
INSERT INTO line_hash VALUES ('01a213b1-5b00-7000-8000-000000000002', 'd2c6fc54bc5614284d4ab11a05ae452aaaa7c27d19619ab191b850ccfb5f45e7', 'd2c6fc54bc5614284d4ab11a05ae452aaaa7c27d19619ab191b850ccfb5f45e7', 'schema 13', '658a3ed5e21a28c601f68804cd965283227dc41d2d6ef5106dd2e60ad8dfb8f5');
INSERT INTO line_hash VALUES ('01a213b2-4560-7000-8000-000000000003', '658a3ed5e21a28c601f68804cd965283227dc41d2d6ef5106dd2e60ad8dfb8f5', '658a3ed5e21a28c601f68804cd965283227dc41d2d6ef5106dd2e60ad8dfb8f5', 'schema 13', '894a680e9086c008e1061d7ceae42d12157cee8f3936aa52921bafdeed6027b5');
INSERT INTO line_hash VALUES ('01a213b3-2fc0-7000-8000-000000000004', '894a680e9086c008e1061d7ceae42d12157cee8f3936aa52921bafdeed6027b5', '894a680e9086c008e1061d7ceae42d12157cee8f3936aa52921bafdeed6027b5', 'schema 13', '779378db6fc761de75b6e6230cce2a018218acbfacc3f2cabf6b35f37f715f7f');
INSERT INTO line_hash VALUES ('01a213b4-1a20-7000-8000-000000000005', '779378db6fc761de75b6e6230cce2a018218acbfacc3f2cabf6b35f37f715f7f', '779378db6fc761de75b6e6230cce2a018218acbfacc3f2cabf6b35f37f715f7f', 'schema 13', '27eab8cd652dd1a6b763957f10f86dc158962708130dfb2ad939e49c2b82c263');
INSERT INTO line_hash VALUES ('01a213b5-0480-7000-8000-000000000006', '27eab8cd652dd1a6b763957f10f86dc158962708130dfb2ad939e49c2b82c263', '27eab8cd652dd1a6b763957f10f86dc158962708130dfb2ad939e49c2b82c263', 'schema 13', '91646a2ae746230ea2472a0104dd36892c83fc6f9766982e9ef65aaf8182316d');
INSERT INTO line_hash VALUES ('01a213b5-eee0-7000-8000-000000000007', '91646a2ae746230ea2472a0104dd36892c83fc6f9766982e9ef65aaf8182316d', '91646a2ae746230ea2472a0104dd36892c83fc6f9766982e9ef65aaf8182316d', 'schema 13', '2fba103aa9a1bc6cfc3b062c527e75a4140cf76087770f70d1c1e3e5115f2549');
INSERT INTO line_hash VALUES ('01a213b6-d940-7000-8000-000000000008', '2fba103aa9a1bc6cfc3b062c527e75a4140cf76087770f70d1c1e3e5115f2549', '2fba103aa9a1bc6cfc3b062c527e75a4140cf76087770f70d1c1e3e5115f2549', 'schema 13', '1d6be16e48fa7a68000a8dd80a1894706de2da1010e9daad50d59750c6ff8e26');
INSERT INTO line_hash VALUES ('01a213b7-c3a0-7000-8000-000000000009', '1d6be16e48fa7a68000a8dd80a1894706de2da1010e9daad50d59750c6ff8e26', '1d6be16e48fa7a68000a8dd80a1894706de2da1010e9daad50d59750c6ff8e26', 'schema 13', '33c49cd2a6a68f7db1873575dfc64913e2585f3b5053777a7e9ae5138e18dc7b');
INSERT INTO line_hash VALUES ('01a213b8-ae00-7000-8000-00000000000a', '33c49cd2a6a68f7db1873575dfc64913e2585f3b5053777a7e9ae5138e18dc7b', '33c49cd2a6a68f7db1873575dfc64913e2585f3b5053777a7e9ae5138e18dc7b', 'schema 13', 'f5fbf90b563cc0d16fdd7e828e39ae9b6eaafb4018d0985f849610b8f3c7bebb');
INSERT INTO line_hash VALUES ('01a213b9-9860-7000-8000-00000000000b', 'f5fbf90b563cc0d16fdd7e828e39ae9b6eaafb4018d0985f849610b8f3c7bebb', 'f5fbf90b563cc0d16fdd7e828e39ae9b6eaafb4018d0985f849610b8f3c7bebb', 'schema 13', '269a84dcf8b257925bec18bc4fc2eb052513b93459ce8d093f7889420ac61613');
INSERT INTO line_hash VALUES ('01a213ba-82c0-7000-8000-00000000000c', '269a84dcf8b257925bec18bc4fc2eb052513b93459ce8d093f7889420ac61613', '269a84dcf8b257925bec18bc4fc2eb052513b93459ce8d093f7889420ac61613', 'schema 13', '7fbeda8714083bc3325b5b53556c184426669ab82e48174314b1917240fbb701');
INSERT INTO line_hash VALUES ('01a213bb-6d20-7000-8000-00000000000d', '7fbeda8714083bc3325b5b53556c184426669ab82e48174314b1917240fbb701', '7fbeda8714083bc3325b5b53556c184426669ab82e48174314b1917240fbb701', 'schema 13', 'ac24514052ff4534cd5cd14adab8fb49504563bb7492461492e906dda3dbc9a1');
INSERT INTO line_hash VALUES ('01a213bc-5780-7000-8000-00000000000e', 'ac24514052ff4534cd5cd14adab8fb49504563bb7492461492e906dda3dbc9a1', 'ac24514052ff4534cd5cd14adab8fb49504563bb7492461492e906dda3dbc9a1', '', 'af1c56003c200b4cf3248c73c1f9ded6bd78f60e8324cde6a48ca83a3e66ae2d');
INSERT INTO line_hash VALUES ('01a213bd-41e0-7000-8000-00000000000f', 'af1c56003c200b4cf3248c73c1f9ded6bd78f60e8324cde6a48ca83a3e66ae2d', 'af1c56003c200b4cf3248c73c1f9ded6bd78f60e8324cde6a48ca83a3e66ae2d', '', 'fe942d6504e18ea627079506747b795ead4a86306691aa177d3c42d4783f9984');
CREATE TABLE chain_end (
  line_id TEXT NOT NULL PRIMARY KEY REFERENCES entry (id)
) STRICT, WITHOUT ROWID;
CREATE TABLE signature (
  line_id    TEXT NOT NULL REFERENCES entry (id),
  public_key TEXT NOT NULL CHECK (length(public_key) = 64 AND public_key NOT GLOB '*[^0-9a-f]*'),
  by_whom    TEXT NOT NULL CHECK (length(by_whom) BETWEEN 1 AND 80),
  signed_at  TEXT NOT NULL CHECK (signed_at GLOB '[0-9][0-9][0-9][0-9]-??-??T??:??:??.???Z'),
  signature  TEXT NOT NULL CHECK (length(signature) = 128 AND signature NOT GLOB '*[^0-9a-f]*'),
  PRIMARY KEY (line_id, public_key, signed_at, by_whom)
) STRICT, WITHOUT ROWID;
INSERT INTO signature VALUES ('01a213bc-5780-7000-8000-00000000000e', 'cc43188348121a95a3e02aa3b60c23188d34faadcc1122369c95bb65e26636c5', 'KB', '2026-11-25T18:10:00.000Z', '4b26f50b168ae5c7dea7047a09e4a4d4b964868c1f440712995c11c4048727abe5e503a71db03f13acee3c5f47e7a65397150cadd1a68c26c0ad8c8fad3a9405');
CREATE TABLE photograph_bytes (
  sha256 TEXT NOT NULL PRIMARY KEY
         CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  bytes  BLOB NOT NULL CHECK (length(bytes) BETWEEN 1 AND 8388608)
) STRICT;
INSERT INTO photograph_bytes VALUES ('d44c0303173ecdb8ba72a7ab688f020583b31865537e2f9ab57e56aeec687807', X'89504e470d0a1a0a0000000d49484452000000010000000108000000003a7e9b550000000a49444154789c63f80f0001010100b138f6140000000049454e44ae426082');
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
INSERT INTO photograph VALUES ('01a213bd-41e0-7000-8000-00000000000f', 'J13', '', 'the seat, wiped', 'png', 1, 1, 67, 'd44c0303173ecdb8ba72a7ab688f020583b31865537e2f9ab57e56aeec687807');
CREATE TABLE photograph_position (
  entry_id TEXT NOT NULL REFERENCES photograph (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;
INSERT INTO photograph_position VALUES ('01a213bd-41e0-7000-8000-00000000000f', 2);
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
CREATE TRIGGER wrench_never_changed BEFORE UPDATE ON wrench BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER wrench_never_removed BEFORE DELETE ON wrench BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER joint_never_changed BEFORE UPDATE ON joint BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER joint_never_removed BEFORE DELETE ON joint BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER joint_after_never_changed BEFORE UPDATE ON joint_after BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER joint_after_never_removed BEFORE DELETE ON joint_after BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER specification_never_changed BEFORE UPDATE ON specification BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER specification_never_removed BEFORE DELETE ON specification BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER removal_never_changed BEFORE UPDATE ON removal BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER removal_never_removed BEFORE DELETE ON removal BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER removal_position_never_changed BEFORE UPDATE ON removal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER removal_position_never_removed BEFORE DELETE ON removal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER finding_never_changed BEFORE UPDATE ON finding BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER finding_never_removed BEFORE DELETE ON finding BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER setting_reading_never_changed BEFORE UPDATE ON setting_reading BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER setting_reading_never_removed BEFORE DELETE ON setting_reading BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER strike_never_changed BEFORE UPDATE ON strike BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER strike_never_removed BEFORE DELETE ON strike BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER strike_not_of_strike BEFORE INSERT ON strike
  WHEN (SELECT kind FROM entry WHERE id = NEW.struck_id) IN ('strike', 'start') BEGIN
  SELECT RAISE(ABORT, 'a strike or the first line cannot be struck');
END;
CREATE INDEX fluid_by_name ON fluid (fluid, entry_id);
CREATE INDEX item_by_code ON item (code, entry_id);
CREATE INDEX item_return_by_code ON item_return (code, entry_id);
CREATE INDEX hold_point_by_code ON hold_point (code, entry_id);
CREATE INDEX hold_point_step_by_code ON hold_point_step (code, entry_id);
CREATE INDEX renewal_by_joint ON renewal (joint_code, entry_id);
CREATE INDEX tightening_by_joint ON tightening (joint_code, entry_id);
CREATE INDEX stripe_by_joint ON stripe (joint_code, entry_id);
CREATE INDEX recheck_by_joint ON recheck (joint_code, entry_id);
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
CREATE TRIGGER joint_covers_never_changed BEFORE UPDATE ON joint_covers BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER joint_covers_never_removed BEFORE DELETE ON joint_covers BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER joint_recheck_never_changed BEFORE UPDATE ON joint_recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER joint_recheck_never_removed BEFORE DELETE ON joint_recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER specification_position_never_changed BEFORE UPDATE ON specification_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER specification_position_never_removed BEFORE DELETE ON specification_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER fluid_never_changed BEFORE UPDATE ON fluid BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER fluid_never_removed BEFORE DELETE ON fluid BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER item_never_changed BEFORE UPDATE ON item BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER item_never_removed BEFORE DELETE ON item BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER item_return_never_changed BEFORE UPDATE ON item_return BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER item_return_never_removed BEFORE DELETE ON item_return BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER hold_point_never_changed BEFORE UPDATE ON hold_point BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER hold_point_never_removed BEFORE DELETE ON hold_point BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER hold_point_joint_never_changed BEFORE UPDATE ON hold_point_joint BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER hold_point_joint_never_removed BEFORE DELETE ON hold_point_joint BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER hold_point_step_never_changed BEFORE UPDATE ON hold_point_step BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER hold_point_step_never_removed BEFORE DELETE ON hold_point_step BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER renewal_never_changed BEFORE UPDATE ON renewal BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER renewal_never_removed BEFORE DELETE ON renewal BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER renewal_position_never_changed BEFORE UPDATE ON renewal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER renewal_position_never_removed BEFORE DELETE ON renewal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER tightening_never_changed BEFORE UPDATE ON tightening BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER tightening_never_removed BEFORE DELETE ON tightening BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER tightening_position_never_changed BEFORE UPDATE ON tightening_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER tightening_position_never_removed BEFORE DELETE ON tightening_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER stripe_never_changed BEFORE UPDATE ON stripe BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER stripe_never_removed BEFORE DELETE ON stripe BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER stripe_position_never_changed BEFORE UPDATE ON stripe_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER stripe_position_never_removed BEFORE DELETE ON stripe_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER recheck_never_changed BEFORE UPDATE ON recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER recheck_never_removed BEFORE DELETE ON recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER recheck_position_never_changed BEFORE UPDATE ON recheck_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER recheck_position_never_removed BEFORE DELETE ON recheck_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE INDEX disposition_by_joint ON disposition (joint_code, entry_id);
CREATE VIEW settled AS
  SELECT d.deviation, d.decision, d.reason, e.by_whom, d.second_person, e.done_at, d.judged_on,
         e.line
  FROM disposition d JOIN current_entry e ON e.id = d.entry_id
  ORDER BY e.line;
CREATE TRIGGER disposition_never_changed BEFORE UPDATE ON disposition BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER disposition_never_removed BEFORE DELETE ON disposition BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE INDEX pull_by_position ON pull (joint_code, position, entry_id);
CREATE TRIGGER pull_never_changed BEFORE UPDATE ON pull BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER pull_never_removed BEFORE DELETE ON pull BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER disposition_part_never_changed BEFORE UPDATE ON disposition_part BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER disposition_part_never_removed BEFORE DELETE ON disposition_part BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER disposition_done_never_changed BEFORE UPDATE ON disposition_done BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER disposition_done_never_removed BEFORE DELETE ON disposition_done BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE VIEW tightened AS
  SELECT t.joint_code AS joint, p.position, t.pass, t.kind,
         round(t.target_nm, 2) AS target_nm, t.target_degrees,
         round(t.applied_nm, 2) AS applied_nm, t.turned_degrees,
         t.wrench_name AS wrench, t.skipped_why, t.second_check, t.seen, e.by_whom, e.done_at,
         e.line
  FROM tightening t JOIN current_entry e ON e.id = t.entry_id
                    JOIN tightening_position p ON p.entry_id = t.entry_id
  ORDER BY e.line, p.place, p.position;
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
CREATE TRIGGER entry_in_line BEFORE INSERT ON entry
  WHEN NEW.line IS NOT (SELECT coalesce(max(line), 0) + 1 FROM entry) BEGIN
  SELECT RAISE(ABORT, 'lines are numbered one after the other, never otherwise');
END;
CREATE TRIGGER entry_in_time BEFORE INSERT ON entry
  WHEN NEW.id <= (SELECT max(id) FROM entry) OR NEW.id >= 'e677d21f' BEGIN
  SELECT RAISE(ABORT, 'ids rise from line to line, of years before 10000, never otherwise');
END;
CREATE TRIGGER entry_start_first BEFORE INSERT ON entry
  WHEN (NEW.kind = 'start') IS NOT (NOT EXISTS (SELECT 1 FROM entry)) BEGIN
  SELECT RAISE(ABORT, 'the start is the first line of a logbook and never a later one');
END;
CREATE TRIGGER entry_hashed BEFORE INSERT ON entry
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'lines are written by boltwitness with their hashes, never otherwise');
END;
CREATE TRIGGER entry_kind_never_changed BEFORE UPDATE ON entry_kind BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;
CREATE TRIGGER entry_kind_never_removed BEFORE DELETE ON entry_kind BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;
CREATE TRIGGER chain_end_never_changed BEFORE UPDATE ON chain_end BEGIN
  SELECT RAISE(ABORT, 'the ends of merged copies follow from the hashes');
END;
CREATE INDEX line_hash_joining ON line_hash (entry_id) WHERE length(file_before) > 64;
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
CREATE INDEX photograph_by_joint ON photograph (joint_code, entry_id);
CREATE INDEX photograph_by_sha256 ON photograph (sha256);
CREATE TRIGGER photograph_never_changed BEFORE UPDATE ON photograph BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER photograph_never_removed BEFORE DELETE ON photograph BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER photograph_position_never_changed BEFORE UPDATE ON photograph_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER photograph_position_never_removed BEFORE DELETE ON photograph_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
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
CREATE TRIGGER disposition_done_never_replaced BEFORE INSERT ON disposition_done
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER disposition_never_replaced BEFORE INSERT ON disposition
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER disposition_part_never_replaced BEFORE INSERT ON disposition_part
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER finding_never_replaced BEFORE INSERT ON finding
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER fluid_never_replaced BEFORE INSERT ON fluid
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER hold_point_joint_never_replaced BEFORE INSERT ON hold_point_joint
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER hold_point_never_replaced BEFORE INSERT ON hold_point
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER hold_point_step_never_replaced BEFORE INSERT ON hold_point_step
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER item_never_replaced BEFORE INSERT ON item
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER item_return_never_replaced BEFORE INSERT ON item_return
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER joint_after_never_replaced BEFORE INSERT ON joint_after
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER joint_covers_never_replaced BEFORE INSERT ON joint_covers
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER joint_never_replaced BEFORE INSERT ON joint
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER joint_recheck_never_replaced BEFORE INSERT ON joint_recheck
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER logbook_start_never_replaced BEFORE INSERT ON logbook_start
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER photograph_never_replaced BEFORE INSERT ON photograph
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER photograph_position_never_replaced BEFORE INSERT ON photograph_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER pull_never_replaced BEFORE INSERT ON pull
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER recheck_never_replaced BEFORE INSERT ON recheck
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER recheck_position_never_replaced BEFORE INSERT ON recheck_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER removal_never_replaced BEFORE INSERT ON removal
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER removal_position_never_replaced BEFORE INSERT ON removal_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER renewal_never_replaced BEFORE INSERT ON renewal
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER renewal_position_never_replaced BEFORE INSERT ON renewal_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER setting_reading_never_replaced BEFORE INSERT ON setting_reading
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER specification_never_replaced BEFORE INSERT ON specification
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER specification_position_never_replaced BEFORE INSERT ON specification_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER strike_never_replaced BEFORE INSERT ON strike
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER stripe_never_replaced BEFORE INSERT ON stripe
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER stripe_position_never_replaced BEFORE INSERT ON stripe_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER tightening_never_replaced BEFORE INSERT ON tightening
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER tightening_position_never_replaced BEFORE INSERT ON tightening_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER wrench_never_replaced BEFORE INSERT ON wrench
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER entry_kind_never_added BEFORE INSERT ON entry_kind BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;
CREATE TRIGGER chain_end_never_added BEFORE INSERT ON chain_end BEGIN
  SELECT RAISE(ABORT, 'the ends of merged copies follow from the hashes');
END;
CREATE TRIGGER chain_end_never_removed BEFORE DELETE ON chain_end
  WHEN coalesce(instr((SELECT file_before FROM line_hash ORDER BY entry_id DESC LIMIT 1),
                      (SELECT hash FROM line_hash WHERE entry_id = OLD.line_id)), 0) = 0 BEGIN
  SELECT RAISE(ABORT, 'the ends of merged copies follow from the hashes');
END;
CREATE TRIGGER photograph_bytes_named BEFORE INSERT ON photograph_bytes
  WHEN sha256_of(NEW.bytes) IS NOT NEW.sha256 BEGIN
  SELECT RAISE(ABORT, 'photographs stand under their own SHA-256');
END;
CREATE TRIGGER signature_fits_its_line BEFORE INSERT ON signature
  WHEN NOT signature_fits((SELECT hash FROM line_hash WHERE entry_id = NEW.line_id), NEW.by_whom,
                          NEW.signed_at, NEW.public_key, NEW.signature) BEGIN
  SELECT RAISE(ABORT, 'signatures fit the line that they stand at');
END;
PRAGMA application_id = 1113024884;
PRAGMA user_version = 18;
COMMIT;
