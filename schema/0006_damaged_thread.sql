-- Where a thread was found damaged when its fastener came out. Applied inside one transaction by the
-- program; see DEVELOPERS.md.

-- NULL where no damage was seen.
ALTER TABLE removal ADD COLUMN damaged_thread TEXT
  CHECK (damaged_thread IN ('fastener', 'hole', 'both'));
