-- Photographs of the machine, a joint, positions or a deviation. Their bytes stand in a table of
-- their own, so that nothing that does not show them reads them. Applied inside one transaction by
-- the program; see DEVELOPERS.md.

INSERT INTO entry_kind (kind, meaning) VALUES
  ('photograph', 'a photograph of the machine, a joint, positions or a deviation');

-- The bytes by their SHA-256 (FIPS 180-4), once however many lines show them. The hash of a line
-- covers that of its photograph and its length, and so the bytes. With a row number of its own: long
-- rows would make the way to any of them long.
CREATE TABLE photograph_bytes (
  sha256 TEXT NOT NULL PRIMARY KEY
         CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  bytes  BLOB NOT NULL CHECK (length(bytes) BETWEEN 1 AND 8388608)
) STRICT;

CREATE TABLE photograph (
  entry_id     TEXT NOT NULL PRIMARY KEY REFERENCES entry (id),
  joint_code   TEXT NOT NULL COLLATE NOCASE,  -- '' where it is about no joint: the machine
  deviation    TEXT NOT NULL COLLATE NOCASE,  -- its id in the audit; '' where it is of none
  note         TEXT NOT NULL,
  format       TEXT NOT NULL CHECK (format IN ('jpeg', 'png', 'webp')),
  width_px     INTEGER NOT NULL CHECK (width_px BETWEEN 1 AND 16384),
  height_px    INTEGER NOT NULL CHECK (height_px BETWEEN 1 AND 16384),
  length_bytes INTEGER NOT NULL CHECK (length_bytes BETWEEN 1 AND 8388608),
  sha256       TEXT NOT NULL REFERENCES photograph_bytes (sha256)
) STRICT, WITHOUT ROWID;
CREATE INDEX photograph_by_joint ON photograph (joint_code, entry_id);
CREATE INDEX photograph_by_sha256 ON photograph (sha256);

CREATE TABLE photograph_position (
  entry_id TEXT NOT NULL REFERENCES photograph (entry_id),
  position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 10000),
  PRIMARY KEY (entry_id, position)
) STRICT, WITHOUT ROWID;

-- Nothing is overwritten, as in the first step.

CREATE TRIGGER photograph_never_changed BEFORE UPDATE ON photograph BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER photograph_never_removed BEFORE DELETE ON photograph BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER photograph_never_replaced BEFORE INSERT ON photograph
  WHEN EXISTS (SELECT 1 FROM photograph WHERE entry_id = NEW.entry_id)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;
CREATE TRIGGER photograph_position_never_changed BEFORE UPDATE ON photograph_position BEGIN
  SELECT RAISE(ABORT, 'lines are never changed; strike the line and enter it again');
END;
CREATE TRIGGER photograph_position_never_removed BEFORE DELETE ON photograph_position BEGIN
  SELECT RAISE(ABORT, 'lines are never removed; strike the line instead');
END;
CREATE TRIGGER photograph_position_never_replaced BEFORE INSERT ON photograph_position
  WHEN EXISTS (SELECT 1 FROM photograph_position WHERE entry_id = NEW.entry_id AND position = NEW.position)
    OR (SELECT hash FROM line_hash WHERE entry_id = NEW.entry_id) IS NOT '' BEGIN
  SELECT RAISE(ABORT, 'the content of a line is written with it and never after');
END;

CREATE TRIGGER photograph_bytes_never_changed BEFORE UPDATE ON photograph_bytes BEGIN
  SELECT RAISE(ABORT, 'photographs are never changed');
END;
CREATE TRIGGER photograph_bytes_never_removed BEFORE DELETE ON photograph_bytes BEGIN
  SELECT RAISE(ABORT, 'photographs are never removed');
END;
CREATE TRIGGER photograph_bytes_never_replaced BEFORE INSERT ON photograph_bytes
  WHEN EXISTS (SELECT 1 FROM photograph_bytes WHERE sha256 = NEW.sha256) BEGIN
  SELECT RAISE(ABORT, 'photographs are never replaced');
END;
