-- How far an angle pass may stray where its source prints no window, and joints that hold a live
-- load. Applied inside one transaction by the program; see DEVELOPERS.md.

-- To either side, in degrees. NULL where it was written by an earlier version, which had no such
-- setting: the program's default stands in, and says so.
ALTER TABLE logbook_start ADD COLUMN angle_degrees REAL
  CHECK (angle_degrees > 0 AND angle_degrees <= 90);
ALTER TABLE logbook_start ADD COLUMN angle_typed TEXT NOT NULL DEFAULT '';

-- 1 where slackening a fastener while the machine stands may let something go: no found-torque test.
ALTER TABLE joint ADD COLUMN live_load INTEGER NOT NULL DEFAULT 0 CHECK (live_load IN (0, 1));
