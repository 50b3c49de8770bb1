-- Shares of the fleet on other servers. Applied inside one transaction by "fleet load"; see
-- DEVELOPERS.md.

-- Moves the shares from `first` to `last` (0 to 15) to a server that postgres_fdw knows by this name,
-- with what is in them. That server has its own fleet, made with "fleet load --to ..." without a
-- logbook, and none of these lines. Whoever calls it owns the fleet and has a user mapping there.
CREATE PROCEDURE fleet.move_shares(server text, first integer, last integer)
  LANGUAGE plpgsql AS $$
DECLARE
  name  text;
  share integer;
  here  text;
BEGIN
  IF first < 0 OR last > 15 OR first > last THEN
    RAISE EXCEPTION 'expected shares of 0 to 15, such as 8, 15';
  END IF;
  FOREACH name IN ARRAY ARRAY['line', 'finding', 'fastener', 'tightening', 'calibration', 'look'] LOOP
    FOR share IN first .. last LOOP
      here := name || to_char(share, 'FM"_"00');
      EXECUTE format('ALTER TABLE fleet.%I DETACH PARTITION fleet.%I', name, here);
      EXECUTE format('ALTER TABLE fleet.%I RENAME TO %I', here, here || '_moved');
      EXECUTE format('CREATE FOREIGN TABLE fleet.%I PARTITION OF fleet.%I
                        FOR VALUES WITH (MODULUS 16, REMAINDER %s)
                        SERVER %I OPTIONS (schema_name ''fleet'', table_name %L, batch_size ''1000'')',
                     here, name, share, server, here);
      EXECUTE format('INSERT INTO fleet.%I SELECT * FROM fleet.%I', here, here || '_moved');
      EXECUTE format('DROP TABLE fleet.%I', here || '_moved');
    END LOOP;
  END LOOP;
END $$;
COMMENT ON PROCEDURE fleet.move_shares(text, integer, integer) IS 'Moves shares of the fleet to another server. Example: CALL fleet.move_shares(''second'', 8, 15)';
