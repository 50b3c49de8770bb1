-- What every line costs besides what it says, in time and on the disk. Applied inside one transaction by
-- the program; see DEVELOPERS.md.

-- Nothing asks for the lines of one kind out of all; each kind has its own tables.
DROP INDEX entry_by_kind;

-- A row of a line that has its hash is never replaced, since none joins it any more: that alone is asked
-- of each row. Of a line that is still being written nothing stands there yet to be replaced.

DROP TRIGGER disposition_done_never_replaced;
CREATE TRIGGER disposition_done_never_replaced BEFORE INSERT ON disposition_done
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER disposition_never_replaced;
CREATE TRIGGER disposition_never_replaced BEFORE INSERT ON disposition
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER disposition_part_never_replaced;
CREATE TRIGGER disposition_part_never_replaced BEFORE INSERT ON disposition_part
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER finding_never_replaced;
CREATE TRIGGER finding_never_replaced BEFORE INSERT ON finding
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER fluid_never_replaced;
CREATE TRIGGER fluid_never_replaced BEFORE INSERT ON fluid
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER hold_point_joint_never_replaced;
CREATE TRIGGER hold_point_joint_never_replaced BEFORE INSERT ON hold_point_joint
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER hold_point_never_replaced;
CREATE TRIGGER hold_point_never_replaced BEFORE INSERT ON hold_point
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER hold_point_step_never_replaced;
CREATE TRIGGER hold_point_step_never_replaced BEFORE INSERT ON hold_point_step
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER item_never_replaced;
CREATE TRIGGER item_never_replaced BEFORE INSERT ON item
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER item_return_never_replaced;
CREATE TRIGGER item_return_never_replaced BEFORE INSERT ON item_return
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER joint_after_never_replaced;
CREATE TRIGGER joint_after_never_replaced BEFORE INSERT ON joint_after
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER joint_covers_never_replaced;
CREATE TRIGGER joint_covers_never_replaced BEFORE INSERT ON joint_covers
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER joint_never_replaced;
CREATE TRIGGER joint_never_replaced BEFORE INSERT ON joint
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER joint_recheck_never_replaced;
CREATE TRIGGER joint_recheck_never_replaced BEFORE INSERT ON joint_recheck
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER logbook_start_never_replaced;
CREATE TRIGGER logbook_start_never_replaced BEFORE INSERT ON logbook_start
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER photograph_never_replaced;
CREATE TRIGGER photograph_never_replaced BEFORE INSERT ON photograph
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER photograph_position_never_replaced;
CREATE TRIGGER photograph_position_never_replaced BEFORE INSERT ON photograph_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER pull_never_replaced;
CREATE TRIGGER pull_never_replaced BEFORE INSERT ON pull
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER recheck_never_replaced;
CREATE TRIGGER recheck_never_replaced BEFORE INSERT ON recheck
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER recheck_position_never_replaced;
CREATE TRIGGER recheck_position_never_replaced BEFORE INSERT ON recheck_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER removal_never_replaced;
CREATE TRIGGER removal_never_replaced BEFORE INSERT ON removal
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER removal_position_never_replaced;
CREATE TRIGGER removal_position_never_replaced BEFORE INSERT ON removal_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER renewal_never_replaced;
CREATE TRIGGER renewal_never_replaced BEFORE INSERT ON renewal
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER renewal_position_never_replaced;
CREATE TRIGGER renewal_position_never_replaced BEFORE INSERT ON renewal_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER setting_reading_never_replaced;
CREATE TRIGGER setting_reading_never_replaced BEFORE INSERT ON setting_reading
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER specification_never_replaced;
CREATE TRIGGER specification_never_replaced BEFORE INSERT ON specification
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER specification_position_never_replaced;
CREATE TRIGGER specification_position_never_replaced BEFORE INSERT ON specification_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER strike_never_replaced;
CREATE TRIGGER strike_never_replaced BEFORE INSERT ON strike
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER stripe_never_replaced;
CREATE TRIGGER stripe_never_replaced BEFORE INSERT ON stripe
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER stripe_position_never_replaced;
CREATE TRIGGER stripe_position_never_replaced BEFORE INSERT ON stripe_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER tightening_never_replaced;
CREATE TRIGGER tightening_never_replaced BEFORE INSERT ON tightening
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER tightening_position_never_replaced;
CREATE TRIGGER tightening_position_never_replaced BEFORE INSERT ON tightening_position
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

DROP TRIGGER wrench_never_replaced;
CREATE TRIGGER wrench_never_replaced BEFORE INSERT ON wrench
  WHEN (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
