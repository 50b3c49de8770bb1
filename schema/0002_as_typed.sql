-- What a person typed is kept to the letter beside the value it means. Empty where it was written
-- by an earlier version, which kept the value alone.

ALTER TABLE logbook_start ADD COLUMN tolerance_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE logbook_start ADD COLUMN method_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE wrench ADD COLUMN range_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE wrench ADD COLUMN graduation_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE wrench ADD COLUMN accuracy_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE joint ADD COLUMN length_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE removal ADD COLUMN other_length_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE finding ADD COLUMN readings_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE finding ADD COLUMN radius_typed TEXT NOT NULL DEFAULT '';  -- for offsets in mm
