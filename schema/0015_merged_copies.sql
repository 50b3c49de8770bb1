-- Copies of one logbook that grew apart become one again: the lines of both, in the order of their
-- ids, each with the hash that it has. Applied inside one transaction by the program; see
-- DEVELOPERS.md.

-- Lines of which none is known to have come after them, besides the last line: after a merge the
-- last ones of the other copies. The next line names them all as those before it, and none is left.
-- What it says follows from the hashes, and verify holds it against them.
CREATE TABLE chain_end (
  line_id TEXT NOT NULL PRIMARY KEY REFERENCES entry (id)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER chain_end_never_changed BEFORE UPDATE ON chain_end BEGIN
  SELECT RAISE(ABORT, 'the ends of merged copies follow from the hashes');
END;

-- The lines that name more than one before them: few, and all that is to be known of when copies
-- were apart begins with them.
CREATE INDEX line_hash_joining ON line_hash (entry_id) WHERE length(file_before) > 64;

-- One key may have signed one line in two copies, each at its own time; both signatures are kept.
CREATE TEMP TABLE kept_signature AS SELECT * FROM signature;
DROP TABLE signature;
CREATE TABLE signature (
  line_id    TEXT NOT NULL REFERENCES entry (id),
  public_key TEXT NOT NULL CHECK (length(public_key) = 64 AND public_key NOT GLOB '*[^0-9a-f]*'),
  by_whom    TEXT NOT NULL CHECK (length(by_whom) BETWEEN 1 AND 80),
  signed_at  TEXT NOT NULL CHECK (signed_at GLOB '[0-9][0-9][0-9][0-9]-??-??T??:??:??.???Z'),
  signature  TEXT NOT NULL CHECK (length(signature) = 128 AND signature NOT GLOB '*[^0-9a-f]*'),
  PRIMARY KEY (line_id, public_key, signed_at, by_whom)
) STRICT, WITHOUT ROWID;
INSERT INTO signature (line_id, public_key, by_whom, signed_at, signature)
  SELECT line_id, public_key, by_whom, signed_at, signature FROM temp.kept_signature;
DROP TABLE temp.kept_signature;

CREATE TRIGGER signature_never_changed BEFORE UPDATE ON signature BEGIN
  SELECT RAISE(ABORT, 'signatures are never changed');
END;
CREATE TRIGGER signature_never_removed BEFORE DELETE ON signature BEGIN
  SELECT RAISE(ABORT, 'signatures are never removed');
END;
CREATE TRIGGER signature_never_replaced BEFORE INSERT ON signature
  WHEN EXISTS (SELECT 1 FROM signature
               WHERE line_id = NEW.line_id AND public_key = NEW.public_key
                 AND signed_at = NEW.signed_at AND by_whom = NEW.by_whom) BEGIN
  SELECT RAISE(ABORT, 'signatures are never replaced');
END;
