-- An adapter between wrench and fastener as its measures, each as it was typed too. The program then
-- reads them out of the words under `adapter`, which versions before this one kept alone, and leaves
-- '' there; words that were not made from measures stay, with NULL beside them. Applied inside one
-- transaction by the program; see DEVELOPERS.md.

-- From the square drive to the middle of the fastener, and to the middle of the hand grip; between
-- the two: 0 straight on, 90 square, 180 folded back. NULL where there is no adapter.
ALTER TABLE finding ADD COLUMN adapter_extension_mm REAL CHECK (adapter_extension_mm > 0);
ALTER TABLE finding ADD COLUMN adapter_wrench_length_mm REAL
  CHECK ((adapter_wrench_length_mm IS NULL) = (adapter_extension_mm IS NULL)
         AND adapter_wrench_length_mm > 0);
ALTER TABLE finding ADD COLUMN adapter_angle_deg REAL
  CHECK ((adapter_angle_deg IS NULL) = (adapter_extension_mm IS NULL)
         AND adapter_angle_deg BETWEEN -180 AND 180);
ALTER TABLE finding ADD COLUMN adapter_extension_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE finding ADD COLUMN adapter_wrench_length_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE finding ADD COLUMN adapter_angle_typed TEXT NOT NULL DEFAULT '';  -- '' for straight on

ALTER TABLE tightening ADD COLUMN adapter_extension_mm REAL CHECK (adapter_extension_mm > 0);
ALTER TABLE tightening ADD COLUMN adapter_wrench_length_mm REAL
  CHECK ((adapter_wrench_length_mm IS NULL) = (adapter_extension_mm IS NULL)
         AND adapter_wrench_length_mm > 0);
ALTER TABLE tightening ADD COLUMN adapter_angle_deg REAL
  CHECK ((adapter_angle_deg IS NULL) = (adapter_extension_mm IS NULL)
         AND adapter_angle_deg BETWEEN -180 AND 180);
ALTER TABLE tightening ADD COLUMN adapter_extension_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE tightening ADD COLUMN adapter_wrench_length_typed TEXT NOT NULL DEFAULT '';
ALTER TABLE tightening ADD COLUMN adapter_angle_typed TEXT NOT NULL DEFAULT '';
