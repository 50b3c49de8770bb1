-- What the bolts of a joint are screwed into and what their heads bear on. Applied inside one
-- transaction by the program; see DEVELOPERS.md.

-- A material by its name, '' for a nut or where it is not known, and the length of thread engaged.
ALTER TABLE joint ADD COLUMN into_material TEXT NOT NULL DEFAULT '';
ALTER TABLE joint ADD COLUMN engaged_mm REAL CHECK (engaged_mm > 0 AND engaged_mm <= 100000);
ALTER TABLE joint ADD COLUMN engaged_typed TEXT NOT NULL DEFAULT '';

-- The same of the seat, and the outer diameter of the face that bears on it.
ALTER TABLE joint ADD COLUMN seat_material TEXT NOT NULL DEFAULT '';
ALTER TABLE joint ADD COLUMN face_mm REAL CHECK (face_mm > 0 AND face_mm <= 100000);
ALTER TABLE joint ADD COLUMN face_typed TEXT NOT NULL DEFAULT '';
