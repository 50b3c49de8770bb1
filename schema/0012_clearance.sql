-- A clearance measured at positions of a joint, with a feeler gauge between its faces. Applied inside
-- one transaction by the program; see DEVELOPERS.md.

INSERT INTO entry_kind (kind, meaning) VALUES
  ('clearance', 'the gap between the faces that was measured at some positions');

CREATE TABLE clearance (
  entry_id   TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code TEXT NOT NULL COLLATE NOCASE,
  gap_mm     REAL NOT NULL CHECK (gap_mm > 0)
) STRICT, WITHOUT ROWID;
CREATE INDEX clearance_by_joint ON clearance (joint_code, entry_id);

CREATE TABLE clearance_position (
  entry_id TEXT NOT NULL REFERENCES clearance (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

-- Nothing is overwritten, as in the first step.

CREATE TRIGGER clearance_never_changed BEFORE UPDATE ON clearance BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER clearance_never_removed BEFORE DELETE ON clearance BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER clearance_never_replaced BEFORE INSERT ON clearance
  WHEN EXISTS (SELECT 1 FROM clearance WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER clearance_position_never_changed BEFORE UPDATE ON clearance_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER clearance_position_never_removed BEFORE DELETE ON clearance_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER clearance_position_never_replaced BEFORE INSERT ON clearance_position
  WHEN EXISTS (SELECT 1 FROM clearance_position
               WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
