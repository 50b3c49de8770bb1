-- Who vouches for a log up to a line, with a key of their own: an Ed25519 signature (RFC 8032) over the
-- hash of that line. What is signed, to the byte, is told in src/logbook/signature.h. Applied inside
-- one transaction by the program; see DEVELOPERS.md.
CREATE TABLE signature (
  line_id    TEXT NOT NULL REFERENCES entry (id),
  public_key TEXT NOT NULL CHECK (length(public_key) = 64 AND public_key NOT GLOB '*[^0-9a-f]*'),
  by_whom    TEXT NOT NULL CHECK (length(by_whom) BETWEEN 1 AND 80),
  signed_at  TEXT NOT NULL CHECK (signed_at GLOB '[0-9][0-9][0-9][0-9]-??-??T??:??:??.???Z'),
  signature  TEXT NOT NULL CHECK (length(signature) = 128 AND signature NOT GLOB '*[^0-9a-f]*'),
  PRIMARY KEY (line_id, public_key)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER signature_never_changed BEFORE UPDATE ON signature BEGIN
  SELECT RAISE(ABORT, 'signatures are never changed');
END;
CREATE TRIGGER signature_never_removed BEFORE DELETE ON signature BEGIN
  SELECT RAISE(ABORT, 'signatures are never removed');
END;
CREATE TRIGGER signature_never_replaced BEFORE INSERT ON signature
  WHEN EXISTS (SELECT 1 FROM signature
               WHERE line_id = NEW.line_id AND public_key = NEW.public_key) BEGIN
  SELECT RAISE(ABORT, 'signatures are never replaced');
END;
