-- Nothing changed unseen: every line carries a hash over what it says and over the lines before it.
-- What is hashed, to the byte, is told in src/logbook/canonical_line.h and src/logbook/hash_chain.h
-- and on the page "boltwitness help hashes". Lines that are there already get theirs by the program,
-- which notes when. Applied inside one transaction by the program; see DEVELOPERS.md.

-- The row comes before its line, with an empty hash: while that is empty the rows of the line may be
-- written, and once it is filled in nothing joins them any more.
CREATE TABLE line_hash (
  entry_id      TEXT NOT NULL PRIMARY KEY REFERENCES entry (id) DEFERRABLE INITIALLY DEFERRED,
  device_before TEXT NOT NULL,  -- hash of the line before by the same device; '' for its first
  file_before   TEXT NOT NULL,  -- hash of the line before in the file; '' for the first
  given_later   TEXT NOT NULL,  -- when, where the line was not hashed as it was written; else ''
  hash          TEXT NOT NULL
                CHECK (hash = '' OR (length(hash) = 64 AND hash NOT GLOB '*[^0-9a-f]*'))
) STRICT, WITHOUT ROWID;

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

-- Lines are numbered one after the other, their ids rise within the years that a date can have, the
-- first line and no other is the start, and none is written but with its hash.
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

-- The words of the kinds are those of the program.
CREATE TRIGGER entry_kind_never_changed BEFORE UPDATE ON entry_kind BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;
CREATE TRIGGER entry_kind_never_removed BEFORE DELETE ON entry_kind BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;
CREATE TRIGGER entry_kind_never_replaced BEFORE INSERT ON entry_kind
  WHEN EXISTS (SELECT 1 FROM entry_kind WHERE kind = NEW.kind) BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;

-- As before, but for the rows of a line that has its hash.

DROP TRIGGER disposition_done_never_replaced;
CREATE TRIGGER disposition_done_never_replaced BEFORE INSERT ON disposition_done
  WHEN EXISTS (SELECT 1 FROM disposition_done WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER disposition_never_replaced;
CREATE TRIGGER disposition_never_replaced BEFORE INSERT ON disposition
  WHEN EXISTS (SELECT 1 FROM disposition WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER disposition_part_never_replaced;
CREATE TRIGGER disposition_part_never_replaced BEFORE INSERT ON disposition_part
  WHEN EXISTS (SELECT 1 FROM disposition_part
               WHERE entry_id = NEW.entry_id AND deviation = NEW.deviation)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER finding_never_replaced;
CREATE TRIGGER finding_never_replaced BEFORE INSERT ON finding
  WHEN EXISTS (SELECT 1 FROM finding WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER fluid_never_replaced;
CREATE TRIGGER fluid_never_replaced BEFORE INSERT ON fluid
  WHEN EXISTS (SELECT 1 FROM fluid WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER hold_point_joint_never_replaced;
CREATE TRIGGER hold_point_joint_never_replaced BEFORE INSERT ON hold_point_joint
  WHEN EXISTS (SELECT 1 FROM hold_point_joint WHERE entry_id = NEW.entry_id AND joint_code = NEW.joint_code)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER hold_point_never_replaced;
CREATE TRIGGER hold_point_never_replaced BEFORE INSERT ON hold_point
  WHEN EXISTS (SELECT 1 FROM hold_point WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER hold_point_step_never_replaced;
CREATE TRIGGER hold_point_step_never_replaced BEFORE INSERT ON hold_point_step
  WHEN EXISTS (SELECT 1 FROM hold_point_step WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER item_never_replaced;
CREATE TRIGGER item_never_replaced BEFORE INSERT ON item
  WHEN EXISTS (SELECT 1 FROM item WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER item_return_never_replaced;
CREATE TRIGGER item_return_never_replaced BEFORE INSERT ON item_return
  WHEN EXISTS (SELECT 1 FROM item_return WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER joint_after_never_replaced;
CREATE TRIGGER joint_after_never_replaced BEFORE INSERT ON joint_after
  WHEN EXISTS (SELECT 1 FROM joint_after WHERE entry_id = NEW.entry_id AND after_code = NEW.after_code)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER joint_covers_never_replaced;
CREATE TRIGGER joint_covers_never_replaced BEFORE INSERT ON joint_covers
  WHEN EXISTS (SELECT 1 FROM joint_covers WHERE entry_id = NEW.entry_id AND covered_code = NEW.covered_code)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER joint_never_replaced;
CREATE TRIGGER joint_never_replaced BEFORE INSERT ON joint
  WHEN EXISTS (SELECT 1 FROM joint WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER joint_recheck_never_replaced;
CREATE TRIGGER joint_recheck_never_replaced BEFORE INSERT ON joint_recheck
  WHEN EXISTS (SELECT 1 FROM joint_recheck WHERE entry_id = NEW.entry_id AND due = NEW.due)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER logbook_start_never_replaced;
CREATE TRIGGER logbook_start_never_replaced BEFORE INSERT ON logbook_start
  WHEN EXISTS (SELECT 1 FROM logbook_start WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER pull_never_replaced;
CREATE TRIGGER pull_never_replaced BEFORE INSERT ON pull
  WHEN EXISTS (SELECT 1 FROM pull WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER recheck_never_replaced;
CREATE TRIGGER recheck_never_replaced BEFORE INSERT ON recheck
  WHEN EXISTS (SELECT 1 FROM recheck WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER recheck_position_never_replaced;
CREATE TRIGGER recheck_position_never_replaced BEFORE INSERT ON recheck_position
  WHEN EXISTS (SELECT 1 FROM recheck_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER removal_never_replaced;
CREATE TRIGGER removal_never_replaced BEFORE INSERT ON removal
  WHEN EXISTS (SELECT 1 FROM removal WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER removal_position_never_replaced;
CREATE TRIGGER removal_position_never_replaced BEFORE INSERT ON removal_position
  WHEN EXISTS (SELECT 1 FROM removal_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER renewal_never_replaced;
CREATE TRIGGER renewal_never_replaced BEFORE INSERT ON renewal
  WHEN EXISTS (SELECT 1 FROM renewal WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER renewal_position_never_replaced;
CREATE TRIGGER renewal_position_never_replaced BEFORE INSERT ON renewal_position
  WHEN EXISTS (SELECT 1 FROM renewal_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER setting_reading_never_replaced;
CREATE TRIGGER setting_reading_never_replaced BEFORE INSERT ON setting_reading
  WHEN EXISTS (SELECT 1 FROM setting_reading WHERE entry_id = NEW.entry_id AND pull = NEW.pull)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER specification_never_replaced;
CREATE TRIGGER specification_never_replaced BEFORE INSERT ON specification
  WHEN EXISTS (SELECT 1 FROM specification WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER specification_position_never_replaced;
CREATE TRIGGER specification_position_never_replaced BEFORE INSERT ON specification_position
  WHEN EXISTS (SELECT 1 FROM specification_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER strike_never_replaced;
CREATE TRIGGER strike_never_replaced BEFORE INSERT ON strike
  WHEN EXISTS (SELECT 1 FROM strike WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER stripe_never_replaced;
CREATE TRIGGER stripe_never_replaced BEFORE INSERT ON stripe
  WHEN EXISTS (SELECT 1 FROM stripe WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER stripe_position_never_replaced;
CREATE TRIGGER stripe_position_never_replaced BEFORE INSERT ON stripe_position
  WHEN EXISTS (SELECT 1 FROM stripe_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER tightening_never_replaced;
CREATE TRIGGER tightening_never_replaced BEFORE INSERT ON tightening
  WHEN EXISTS (SELECT 1 FROM tightening WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER tightening_position_never_replaced;
CREATE TRIGGER tightening_position_never_replaced BEFORE INSERT ON tightening_position
  WHEN EXISTS (SELECT 1 FROM tightening_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER wrench_never_replaced;
CREATE TRIGGER wrench_never_replaced BEFORE INSERT ON wrench
  WHEN EXISTS (SELECT 1 FROM wrench WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
