-- Reassembly: what goes back and in which order, pass by pass, to the final stripe and the re-check.
-- Applied inside one transaction by the program; see DEVELOPERS.md.

INSERT INTO entry_kind (kind, meaning) VALUES
  ('fluid',           'a fluid drained and measured, or filled again'),
  ('item',            'counted parts without a torque, such as clips and hoses'),
  ('item return',     'so many of an item back in their place'),
  ('hold point',      'a safety gate that has to be passed first'),
  ('hold point step', 'a hold point begun, passed or closed again'),
  ('renewal',         'new fasteners that have arrived'),
  ('tightening',      'one pass over some positions of a joint, or its being left out'),
  ('stripe',          'the final mark across fastener and part'),
  ('recheck',         'a later look at the final stripes');

ALTER TABLE joint ADD COLUMN bench      INTEGER NOT NULL DEFAULT 0 CHECK (bench IN (0, 1));
ALTER TABLE joint ADD COLUMN final_when TEXT NOT NULL DEFAULT '';  -- snug now, final when this is so
ALTER TABLE joint ADD COLUMN order_text TEXT NOT NULL DEFAULT '';  -- maker's or published, of positions
ALTER TABLE joint ADD COLUMN passes     TEXT NOT NULL DEFAULT '';  -- a pass rule by its name

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

-- Where a specification holds for some positions only; no row where it holds for the joint.
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
CREATE INDEX fluid_by_name ON fluid (fluid, entry_id);

CREATE TABLE item (
  entry_id     TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code         TEXT NOT NULL COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 32),
  what         TEXT NOT NULL,
  count        INTEGER NOT NULL CHECK (count BETWEEN 1 AND 10000),
  before_joint TEXT NOT NULL COLLATE NOCASE     -- may not be closed without it; '' for none
) STRICT, WITHOUT ROWID;
CREATE INDEX item_by_code ON item (code, entry_id);

CREATE TABLE item_return (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code     TEXT NOT NULL COLLATE NOCASE,
  count    INTEGER NOT NULL CHECK (count BETWEEN 1 AND 10000)
) STRICT, WITHOUT ROWID;
CREATE INDEX item_return_by_code ON item_return (code, entry_id);

CREATE TABLE hold_point (
  entry_id     TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  code         TEXT NOT NULL COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 32),
  what         TEXT NOT NULL CHECK (length(what) > 0),
  wait_seconds INTEGER CHECK (wait_seconds > 0)
) STRICT, WITHOUT ROWID;
CREATE INDEX hold_point_by_code ON hold_point (code, entry_id);

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
CREATE INDEX hold_point_step_by_code ON hold_point_step (code, entry_id);

CREATE TABLE renewal (
  entry_id   TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code TEXT NOT NULL COLLATE NOCASE
) STRICT, WITHOUT ROWID;
CREATE INDEX renewal_by_joint ON renewal (joint_code, entry_id);

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
) STRICT, WITHOUT ROWID;
CREATE INDEX tightening_by_joint ON tightening (joint_code, entry_id);

CREATE TABLE tightening_position (
  entry_id TEXT NOT NULL REFERENCES tightening (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE stripe (
  entry_id             TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code           TEXT NOT NULL COLLATE NOCASE,
  teardown_mark_wiped  INTEGER NOT NULL CHECK (teardown_mark_wiped IN (0, 1)),
  counter              TEXT NOT NULL                     -- '1240 running h'; '' where not noted
) STRICT, WITHOUT ROWID;
CREATE INDEX stripe_by_joint ON stripe (joint_code, entry_id);

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
CREATE INDEX recheck_by_joint ON recheck (joint_code, entry_id);

CREATE TABLE recheck_position (
  entry_id TEXT NOT NULL REFERENCES recheck (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

-- For people with the sqlite3 shell: every pass over every position, in the order of entry.
CREATE VIEW tightened AS
  SELECT t.joint_code AS joint, p.position, t.pass, t.kind,
         round(t.target_nm, 2) AS target_nm, t.target_degrees,
         round(t.applied_nm, 2) AS applied_nm, t.turned_degrees,
         t.wrench_name AS wrench, t.skipped_why, t.second_check, e.by_whom, e.done_at, e.line
  FROM tightening t JOIN current_entry e ON e.id = t.entry_id
                    JOIN tightening_position p ON p.entry_id = t.entry_id
  ORDER BY e.line, p.position;

-- A specification for some positions is no specification of the joint; it stands before that of the
-- joint where it holds.
DROP VIEW specification_and_found;
DROP VIEW current_specification;

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

-- Nothing is overwritten, as in the first step.

CREATE TRIGGER joint_covers_never_changed BEFORE UPDATE ON joint_covers BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER joint_covers_never_removed BEFORE DELETE ON joint_covers BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER joint_covers_never_replaced BEFORE INSERT ON joint_covers
  WHEN EXISTS (SELECT 1 FROM joint_covers WHERE entry_id = NEW.entry_id AND covered_code = NEW.covered_code)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER joint_recheck_never_changed BEFORE UPDATE ON joint_recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER joint_recheck_never_removed BEFORE DELETE ON joint_recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER joint_recheck_never_replaced BEFORE INSERT ON joint_recheck
  WHEN EXISTS (SELECT 1 FROM joint_recheck WHERE entry_id = NEW.entry_id AND due = NEW.due)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER specification_position_never_changed BEFORE UPDATE ON specification_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER specification_position_never_removed BEFORE DELETE ON specification_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER specification_position_never_replaced BEFORE INSERT ON specification_position
  WHEN EXISTS (SELECT 1 FROM specification_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER fluid_never_changed BEFORE UPDATE ON fluid BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER fluid_never_removed BEFORE DELETE ON fluid BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER fluid_never_replaced BEFORE INSERT ON fluid
  WHEN EXISTS (SELECT 1 FROM fluid WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER item_never_changed BEFORE UPDATE ON item BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER item_never_removed BEFORE DELETE ON item BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER item_never_replaced BEFORE INSERT ON item
  WHEN EXISTS (SELECT 1 FROM item WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER item_return_never_changed BEFORE UPDATE ON item_return BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER item_return_never_removed BEFORE DELETE ON item_return BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER item_return_never_replaced BEFORE INSERT ON item_return
  WHEN EXISTS (SELECT 1 FROM item_return WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER hold_point_never_changed BEFORE UPDATE ON hold_point BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER hold_point_never_removed BEFORE DELETE ON hold_point BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER hold_point_never_replaced BEFORE INSERT ON hold_point
  WHEN EXISTS (SELECT 1 FROM hold_point WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER hold_point_joint_never_changed BEFORE UPDATE ON hold_point_joint BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER hold_point_joint_never_removed BEFORE DELETE ON hold_point_joint BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER hold_point_joint_never_replaced BEFORE INSERT ON hold_point_joint
  WHEN EXISTS (SELECT 1 FROM hold_point_joint WHERE entry_id = NEW.entry_id AND joint_code = NEW.joint_code)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER hold_point_step_never_changed BEFORE UPDATE ON hold_point_step BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER hold_point_step_never_removed BEFORE DELETE ON hold_point_step BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER hold_point_step_never_replaced BEFORE INSERT ON hold_point_step
  WHEN EXISTS (SELECT 1 FROM hold_point_step WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER renewal_never_changed BEFORE UPDATE ON renewal BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER renewal_never_removed BEFORE DELETE ON renewal BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER renewal_never_replaced BEFORE INSERT ON renewal
  WHEN EXISTS (SELECT 1 FROM renewal WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER renewal_position_never_changed BEFORE UPDATE ON renewal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER renewal_position_never_removed BEFORE DELETE ON renewal_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER renewal_position_never_replaced BEFORE INSERT ON renewal_position
  WHEN EXISTS (SELECT 1 FROM renewal_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER tightening_never_changed BEFORE UPDATE ON tightening BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER tightening_never_removed BEFORE DELETE ON tightening BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER tightening_never_replaced BEFORE INSERT ON tightening
  WHEN EXISTS (SELECT 1 FROM tightening WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER tightening_position_never_changed BEFORE UPDATE ON tightening_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER tightening_position_never_removed BEFORE DELETE ON tightening_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER tightening_position_never_replaced BEFORE INSERT ON tightening_position
  WHEN EXISTS (SELECT 1 FROM tightening_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER stripe_never_changed BEFORE UPDATE ON stripe BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER stripe_never_removed BEFORE DELETE ON stripe BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER stripe_never_replaced BEFORE INSERT ON stripe
  WHEN EXISTS (SELECT 1 FROM stripe WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER stripe_position_never_changed BEFORE UPDATE ON stripe_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER stripe_position_never_removed BEFORE DELETE ON stripe_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER stripe_position_never_replaced BEFORE INSERT ON stripe_position
  WHEN EXISTS (SELECT 1 FROM stripe_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER recheck_never_changed BEFORE UPDATE ON recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER recheck_never_removed BEFORE DELETE ON recheck BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER recheck_never_replaced BEFORE INSERT ON recheck
  WHEN EXISTS (SELECT 1 FROM recheck WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER recheck_position_never_changed BEFORE UPDATE ON recheck_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER recheck_position_never_removed BEFORE DELETE ON recheck_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER recheck_position_never_replaced BEFORE INSERT ON recheck_position
  WHEN EXISTS (SELECT 1 FROM recheck_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
