-- The pulls of a found-torque test that is under way, each durable by itself. One that reaches the
-- mark ends the test: it stands in the finding, which holds the readings of all the pulls before it.
-- Applied inside one transaction by the program; see DEVELOPERS.md.

INSERT INTO entry_kind (kind, meaning) VALUES
  ('pull', 'one pull of a found-torque test that is under way');

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
CREATE INDEX pull_by_position ON pull (joint_code, position, entry_id);

-- Nothing is overwritten, as in the first step.

CREATE TRIGGER pull_never_changed BEFORE UPDATE ON pull BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER pull_never_removed BEFORE DELETE ON pull BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER pull_never_replaced BEFORE INSERT ON pull
  WHEN EXISTS (SELECT 1 FROM pull WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
