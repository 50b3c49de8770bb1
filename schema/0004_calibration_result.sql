-- What a calibration found before the wrench was adjusted. Applied inside one transaction by the
-- program; see DEVELOPERS.md.

-- The largest deviation as found, without its sign; NULL where none was told.
ALTER TABLE wrench ADD COLUMN found_off_percent REAL
  CHECK (found_off_percent > 0 AND found_off_percent < 100);
