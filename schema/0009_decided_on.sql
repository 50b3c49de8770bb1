-- What a decision is about, one by one, each with its own evidence, and the line that says that
-- what was decided has been done. Applied inside one transaction by the program; see DEVELOPERS.md.

-- Of the words that a fingerprint in disposition.evidence was made from, older lines know no other;
-- one in this table is made from typed figures alone.
CREATE TABLE disposition_part (
  entry_id  TEXT NOT NULL REFERENCES disposition (entry_id),
  deviation TEXT NOT NULL COLLATE NOCASE CHECK (length(deviation) > 0),  -- the id it has alone
  position  INTEGER CHECK (position BETWEEN 1 AND 10000),  -- NULL for the joint as a whole
  evidence  TEXT NOT NULL CHECK (length(evidence) = 16),   -- fingerprint of what it rests on
  PRIMARY KEY (entry_id, deviation)
) STRICT, WITHOUT ROWID;

-- Only of a decision that a line of its own carries out.
CREATE TABLE disposition_done (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES disposition (entry_id),
  what     TEXT NOT NULL CHECK (length(what) > 0)
) STRICT, WITHOUT ROWID;

-- Nothing is overwritten, as in the first step.

CREATE TRIGGER disposition_part_never_changed BEFORE UPDATE ON disposition_part BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER disposition_part_never_removed BEFORE DELETE ON disposition_part BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER disposition_part_never_replaced BEFORE INSERT ON disposition_part
  WHEN EXISTS (SELECT 1 FROM disposition_part
               WHERE entry_id = NEW.entry_id AND deviation = NEW.deviation)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER disposition_done_never_changed BEFORE UPDATE ON disposition_done BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER disposition_done_never_removed BEFORE DELETE ON disposition_done BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER disposition_done_never_replaced BEFORE INSERT ON disposition_done
  WHEN EXISTS (SELECT 1 FROM disposition_done WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
