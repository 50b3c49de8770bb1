-- Dispositions: what was decided about a deviation that the audit found, by whom and why.
-- Applied inside one transaction by the program; see DEVELOPERS.md.

INSERT INTO entry_kind (kind, meaning) VALUES
  ('disposition', 'the decision on a deviation that the audit found');

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
CREATE INDEX disposition_by_joint ON disposition (joint_code, entry_id);

-- For people with the sqlite3 shell. Whether a decision still holds is for the audit to say: it
-- opens a deviation again where its evidence has changed.
CREATE VIEW settled AS
  SELECT d.deviation, d.decision, d.reason, e.by_whom, d.second_person, e.done_at, d.judged_on,
         e.line
  FROM disposition d JOIN current_entry e ON e.id = d.entry_id
  ORDER BY e.line;

-- Nothing is overwritten, as in the first step.

CREATE TRIGGER disposition_never_changed BEFORE UPDATE ON disposition BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER disposition_never_removed BEFORE DELETE ON disposition BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER disposition_never_replaced BEFORE INSERT ON disposition
  WHEN EXISTS (SELECT 1 FROM disposition WHERE entry_id = NEW.entry_id)
    OR NEW.entry_id IS NOT (SELECT id FROM entry ORDER BY line DESC LIMIT 1) BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
