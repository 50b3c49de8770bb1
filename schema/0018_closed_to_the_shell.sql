-- What a shell could still put in: a kind of line, an end of merged copies, bytes under the name of others,
-- and a signature that does not fit. Applied inside one transaction by the program; see DEVELOPERS.md.

-- A kind comes with a step of the schema alone, which takes this trigger out and makes it again.
DROP TRIGGER entry_kind_never_replaced;
CREATE TRIGGER entry_kind_never_added BEFORE INSERT ON entry_kind BEGIN
  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');
END;

-- Which lines are ends follows from the hashes of all lines. Merge and import look for them among all,
-- and take these two out of the way while they keep what they found: a trigger that looked for itself
-- would go through all lines for each end. Otherwise an end only goes, with the line that names it as
-- before itself.
CREATE TRIGGER chain_end_never_added BEFORE INSERT ON chain_end BEGIN
  SELECT RAISE(ABORT, 'the ends of merged copies follow from the hashes');
END;
CREATE TRIGGER chain_end_never_removed BEFORE DELETE ON chain_end
  WHEN coalesce(instr((SELECT file_before FROM line_hash ORDER BY entry_id DESC LIMIT 1),
                      (SELECT hash FROM line_hash WHERE entry_id = OLD.line_id)), 0) = 0 BEGIN
  SELECT RAISE(ABORT, 'the ends of merged copies follow from the hashes');
END;

-- sha256_of and signature_fits are functions of the program's own connections (src/logbook/own_functions.h).
-- Who has none of that name puts nothing in at all.
CREATE TRIGGER photograph_bytes_named BEFORE INSERT ON photograph_bytes
  WHEN sha256_of(NEW.bytes) IS NOT NEW.sha256 BEGIN
  SELECT RAISE(ABORT, 'photographs stand under their own SHA-256');
END;
CREATE TRIGGER signature_fits_its_line BEFORE INSERT ON signature
  WHEN NOT signature_fits((SELECT hash FROM line_hash WHERE entry_id = NEW.line_id), NEW.by_whom,
                          NEW.signed_at, NEW.public_key, NEW.signature) BEGIN
  SELECT RAISE(ABORT, 'signatures fit the line that they stand at');
END;
