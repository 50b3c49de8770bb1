-- The order in which the positions of one line were tightened, and what was seen of a fastener that
-- was slackened to be looked at. Applied inside one transaction by the program; see DEVELOPERS.md.

-- From 1, in the order done. NULL in every row of a line from before this step, which kept no order:
-- its positions stand rising.
ALTER TABLE tightening_position ADD COLUMN place INTEGER CHECK (place BETWEEN 1 AND 10000);

-- Of thread, face and seat, in the fitter's words; '' where nobody said that they looked.
ALTER TABLE tightening ADD COLUMN seen TEXT NOT NULL DEFAULT '';

-- As in step 3, by the order done.
DROP VIEW tightened;
CREATE VIEW tightened AS
  SELECT t.joint_code AS joint, p.position, t.pass, t.kind,
         round(t.target_nm, 2) AS target_nm, t.target_degrees,
         round(t.applied_nm, 2) AS applied_nm, t.turned_degrees,
         t.wrench_name AS wrench, t.skipped_why, t.second_check, t.seen, e.by_whom, e.done_at,
         e.line
  FROM tightening t JOIN current_entry e ON e.id = t.entry_id
                    JOIN tightening_position p ON p.entry_id = t.entry_id
  ORDER BY e.line, p.place, p.position;
