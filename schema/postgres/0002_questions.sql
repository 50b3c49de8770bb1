-- The questions that are asked of a fleet, each a view; "fleet ask" asks the same views. Applied
-- inside one transaction by "fleet load"; see DEVELOPERS.md.
--
-- A machine is known by its name, a joint by its code, both in any case of letters; several logbooks
-- may be of one machine.

-- The moment for which a question is asked: SET fleet.moment = '2026-03-02 08:15', else now.
CREATE FUNCTION fleet.moment() RETURNS timestamptz LANGUAGE sql STABLE AS $$
  SELECT coalesce(nullif(current_setting('fleet.moment', true), '')::timestamptz, now())
$$;

CREATE VIEW fleet.every_line AS
  SELECT b.machine, l.logbook, row_number() OVER (PARTITION BY l.logbook ORDER BY l.id) AS line,
         l.id, l.kind, l.by_whom, l.done_at, l.entered_at, s.id AS struck_by, l.says
  FROM fleet.line l JOIN fleet.logbook b USING (logbook)
       LEFT JOIN (SELECT DISTINCT ON (logbook, strikes) logbook, strikes, id FROM fleet.line
                  WHERE strikes IS NOT NULL ORDER BY logbook, strikes, id) s
              ON s.logbook = l.logbook AND s.strikes = l.id;
COMMENT ON VIEW fleet.every_line IS 'Every line of every logbook, struck ones with the line that struck them. Example: SELECT line, kind, by_whom, says FROM fleet.every_line WHERE machine = ''GB-1'' ORDER BY line';

CREATE VIEW fleet.current_line AS
  SELECT * FROM fleet.every_line WHERE struck_by IS NULL AND kind <> 'strike';
COMMENT ON VIEW fleet.current_line IS 'Every line that counts. Example: SELECT kind, count(*) FROM fleet.current_line GROUP BY kind';

CREATE VIEW fleet.found AS
  SELECT b.machine, b.file, p.logbook, p.joint, p.position, p.holds, p.size, p.length_mm, p.grade,
         p.joint_count, p.specification, p.condition, p.source,
         p.specified_nm, p.specified_low_nm, p.specified_high_nm, p.limits_assumed,
         f.found_nm, f.found_uncertainty_nm, f.found_low_nm, f.found_high_nm,
         f.evidence, f.usable, f.verdict, f.ratio, f.ratio_uncertainty,
         f.tightened_nm, f.tightened_uncertainty_nm, f.tightened_verdict,
         f.wrench, f.serial, f.line, f.done_at AS found_at, p.broke, p.out_at, p.teardown
  FROM fleet.fastener p JOIN fleet.logbook b USING (logbook)
       LEFT JOIN fleet.finding f ON f.logbook = p.logbook AND f.id = p.finding;
COMMENT ON VIEW fleet.found IS 'Every fastener: what is specified, with its limits, and what was found, with its uncertainty. Example: SELECT machine, joint, position, found_nm, found_uncertainty_nm FROM fleet.found WHERE verdict = ''low''';

-- The latest teardown of each fastener against the one before it: the last usable test that belongs
-- to another teardown, of a fastener of the same kind to the same specification. What makes it the
-- same is one text for both sides of the join, of both in full before it: of seven conditions the
-- planner thinks that they leave next to nothing, and goes through all tests for each fastener.
CREATE FUNCTION fleet.same_fastener(machine text, joint text, "position" integer, size text,
                                    grade text, condition text, specification text)
  RETURNS text LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT lower(machine) || chr(31) || lower(joint) || chr(31) || "position" || chr(31) || size
         || chr(31) || grade || chr(31) || condition || chr(31) || specification
$$;

CREATE VIEW fleet.loosened AS
  WITH latest AS MATERIALIZED (
    SELECT DISTINCT ON (lower(machine), lower(joint), position) *,
           fleet.same_fastener(machine, joint, position, size, grade, condition, specification)
             AS same
    FROM fleet.found WHERE out_at IS NOT NULL OR found_at IS NOT NULL
    ORDER BY lower(machine), lower(joint), position, greatest(out_at, found_at) DESC, logbook),
  test AS MATERIALIZED (
    SELECT f.logbook, f.id, f.teardown, f.done_at, f.found_nm, f.found_uncertainty_nm,
           fleet.same_fastener(b.machine, p.joint, p.position, p.size, p.grade, p.condition,
                               p.specification) AS same
    FROM fleet.finding f
         JOIN fleet.logbook b USING (logbook)
         JOIN fleet.fastener p ON p.logbook = f.logbook AND p.joint = f.joint
                              AND p.position = f.position
    WHERE f.usable),
  earlier AS (
    SELECT DISTINCT ON (l.logbook, l.joint, l.position)
           l.logbook, l.joint, l.position, t.found_nm AS before_nm,
           t.found_uncertainty_nm AS before_uncertainty_nm, t.done_at AS before_at
    FROM latest l JOIN test t USING (same)
    WHERE t.done_at < coalesce(l.found_at, l.out_at)
      AND (t.logbook <> l.logbook OR t.teardown IS DISTINCT FROM l.teardown)
    ORDER BY l.logbook, l.joint, l.position, t.done_at DESC, t.id DESC),
  held_against AS (
    SELECT l.*, e.before_nm, e.before_uncertainty_nm, e.before_at,
           CASE WHEN l.usable
                THEN (l.found_nm - e.before_nm)
                     / sqrt(l.found_uncertainty_nm ^ 2 + e.before_uncertainty_nm ^ 2)
           END AS e_n
    FROM latest l LEFT JOIN earlier e USING (logbook, joint, position))
  SELECT machine, joint, position, holds,
         CASE WHEN broke = 'loose' THEN 'came out loose' ELSE 'lower than before' END AS how,
         found_nm, found_uncertainty_nm, found_at, before_nm, before_uncertainty_nm, before_at, e_n,
         specified_nm, specified_low_nm, specified_high_nm, out_at, file
  FROM held_against
  WHERE broke = 'loose' OR e_n < -1;
COMMENT ON VIEW fleet.loosened IS 'Fasteners that loosened since the teardown before: they came out loose, or were found lower by more than both uncertainties explain (e_n below -1). Example: SELECT * FROM fleet.loosened WHERE machine = ''GB-1'' ORDER BY e_n';

-- One text for the four: how the fasteners of one kind were found. The true median lies between
-- median_ratio_low and median_ratio_high, since each ratio lies within its own uncertainty.
DO $$
DECLARE
  each record;
BEGIN
  FOR each IN SELECT * FROM (VALUES
      ('by_joint', 'mode() WITHIN GROUP (ORDER BY joint) AS joint,
                    mode() WITHIN GROUP (ORDER BY holds) AS holds', 'lower(joint)', 'true',
       'by joint code', 'joint'),
      ('by_size', 'size', 'size', 'true', 'by size of thread', 'size'),
      ('by_condition', 'condition', 'condition', 'condition <> ''''', 'by condition of the threads',
       'condition'),
      ('by_wrench', 'mode() WITHIN GROUP (ORDER BY wrench) AS wrench,
                     mode() WITHIN GROUP (ORDER BY serial) AS serial',
       'CASE WHEN serial <> '''' THEN ''serial '' || lower(serial)
             ELSE logbook || '' '' || lower(wrench) END', 'wrench IS NOT NULL',
       'by the wrench they were found with: one serial number is one wrench in every logbook',
       'wrench')) AS t (name, subject, key, condition, says, first)
  LOOP
    EXECUTE format($view$
      CREATE VIEW fleet.%I AS
        SELECT %s, count(DISTINCT lower(machine)) AS machines, count(*) AS fasteners,
               count(verdict) AS found,
               count(*) FILTER (WHERE verdict = 'within') AS within,
               count(*) FILTER (WHERE verdict = 'low') AS low,
               count(*) FILTER (WHERE verdict = 'high') AS high,
               count(*) FILTER (WHERE verdict = 'undecided') AS undecided,
               count(*) FILTER (WHERE verdict = 'not comparable') AS not_comparable,
               count(*) FILTER (WHERE broke = 'loose') AS came_out_loose,
               percentile_cont(0.5) WITHIN GROUP (ORDER BY ratio) FILTER (WHERE usable)
                 AS median_ratio,
               percentile_cont(0.5) WITHIN GROUP (ORDER BY ratio - ratio_uncertainty)
                 FILTER (WHERE usable) AS median_ratio_low,
               percentile_cont(0.5) WITHIN GROUP (ORDER BY ratio + ratio_uncertainty)
                 FILTER (WHERE usable) AS median_ratio_high
        FROM fleet.found WHERE %s GROUP BY %s$view$,
      each.name, each.subject, each.condition, each.key);
    EXECUTE format('COMMENT ON VIEW fleet.%I IS %L', each.name,
                   format('How the fasteners were found, %s. Example: SELECT * FROM fleet.%s '
                          'ORDER BY low DESC, %s', each.says, each.name, each.first));
  END LOOP;
END $$;

-- Wherever a wrench that a calibration found off was used since the calibration before, in every
-- logbook that knows its serial number; without one, in its own logbook. Of the day of the
-- calibration counts what was done before the line that tells of it.
CREATE VIEW fleet.bad_wrench AS
  WITH calibration AS (
    SELECT CASE WHEN serial <> '' THEN 'serial ' || lower(serial)
                ELSE logbook || ' ' || lower(wrench) END AS tool, *
    FROM fleet.calibration),
  known AS (
    SELECT tool, calibrated_on, bool_or(is_off) AS is_off, max(found_off_percent) AS found_off_percent,
           (array_agg(told_at ORDER BY told_at, told_by))[1] AS told_at,
           (array_agg(told_by ORDER BY told_at, told_by))[1] AS told_by
    FROM calibration GROUP BY tool, calibrated_on),
  off AS (
    SELECT * FROM (SELECT *, lag(calibrated_on) OVER (PARTITION BY tool ORDER BY calibrated_on)
                               AS before_on FROM known) in_turn
    WHERE is_off),
  used AS (
    SELECT 'tested' AS what, logbook, id, line, joint, ARRAY[position] AS positions, done_at, used_on,
           wrench, serial, found_nm, found_uncertainty_nm
    FROM fleet.finding
    UNION ALL
    SELECT 'tightened', logbook, id, line, joint, positions, done_at, used_on, wrench, serial,
           NULL, NULL
    FROM fleet.tightening)
  SELECT u.wrench, u.serial, o.calibrated_on, o.found_off_percent, b.machine, u.joint, u.positions,
         u.what, u.found_nm, u.found_uncertainty_nm, u.done_at, u.line, b.file
  FROM off o
       JOIN used u ON CASE WHEN u.serial <> '' THEN 'serial ' || lower(u.serial)
                           ELSE u.logbook || ' ' || lower(u.wrench) END = o.tool
                  AND (o.before_on IS NULL OR u.used_on >= o.before_on)
                  AND (u.used_on < o.calibrated_on
                       OR (u.used_on = o.calibrated_on AND (u.done_at, u.id) < (o.told_at, o.told_by)))
       JOIN fleet.logbook b ON b.logbook = u.logbook;
COMMENT ON VIEW fleet.bad_wrench IS 'What a wrench that was found off had touched since the calibration before, on every machine. Example: SELECT * FROM fleet.bad_wrench WHERE serial = ''4711'' ORDER BY machine, joint';

-- The middle of a rising list without its member of that number.
CREATE FUNCTION fleet.median_of_others(rising double precision[], own bigint)
  RETURNS double precision LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT (rising[low + (low >= own)::int] + rising[high + (high >= own)::int]) / 2
  FROM (SELECT cardinality(rising) / 2 AS low, (cardinality(rising) + 1) / 2 AS high) middle
$$;

-- Each fastener against the same one of the sisters: the other machines that have a joint of that
-- code, count, size, length, grade, condition and specification; of each its latest usable test. The
-- sisters' value is their median; it lies between the medians of the lower and upper ends of all.
CREATE VIEW fleet.beside_sisters AS
  WITH latest AS (
    SELECT DISTINCT ON (lower(machine), lower(joint), position) *,
           concat_ws('|', lower(joint), joint_count, size, coalesce(length_mm::text, '-'), grade,
                     condition, specification) AS alike
    FROM fleet.found WHERE usable
    ORDER BY lower(machine), lower(joint), position, found_at DESC, logbook),
  ranked AS (
    SELECT *,
           row_number() OVER (PARTITION BY alike, position ORDER BY found_nm, logbook) AS own,
           row_number() OVER (PARTITION BY alike, position
                              ORDER BY found_nm - found_uncertainty_nm, logbook) AS own_low,
           row_number() OVER (PARTITION BY alike, position
                              ORDER BY found_nm + found_uncertainty_nm, logbook) AS own_high
    FROM latest),
  together AS (
    SELECT alike, position, array_agg(found_nm ORDER BY found_nm, logbook) AS found,
           array_agg(found_nm - found_uncertainty_nm
                     ORDER BY found_nm - found_uncertainty_nm, logbook) AS low,
           array_agg(found_nm + found_uncertainty_nm
                     ORDER BY found_nm + found_uncertainty_nm, logbook) AS high
    FROM latest GROUP BY alike, position HAVING count(*) > 1),
  beside AS (
    SELECT r.*, cardinality(t.found) - 1 AS sisters,
           fleet.median_of_others(t.found, r.own) AS sisters_nm,
           fleet.median_of_others(t.low, r.own_low) AS sisters_low_nm,
           fleet.median_of_others(t.high, r.own_high) AS sisters_high_nm
    FROM ranked r JOIN together t USING (alike, position)),
  told AS (
    SELECT *, greatest(sisters_nm - sisters_low_nm, sisters_high_nm - sisters_nm)
                AS sisters_uncertainty_nm
    FROM beside)
  SELECT machine, joint, position, holds, found_nm, found_uncertainty_nm, found_at, sisters, sisters_nm,
         sisters_uncertainty_nm, found_nm / sisters_nm AS ratio,
         found_nm / sisters_nm * sqrt((found_uncertainty_nm / found_nm) ^ 2
                                      + (sisters_uncertainty_nm / sisters_nm) ^ 2)
           AS ratio_uncertainty,
         (found_nm - sisters_nm) / sqrt(found_uncertainty_nm ^ 2 + sisters_uncertainty_nm ^ 2) AS e_n,
         specified_nm, specified_low_nm, specified_high_nm, file
  FROM told;
COMMENT ON VIEW fleet.beside_sisters IS 'Each fastener against the same one of the other machines. Example: SELECT * FROM fleet.beside_sisters WHERE machine = ''GB-1'' ORDER BY joint, position';

CREATE VIEW fleet.changed AS
  SELECT * FROM fleet.beside_sisters WHERE abs(e_n) > 1;
COMMENT ON VIEW fleet.changed IS 'Fasteners that were found otherwise than those of the sisters by more than the uncertainties explain (e_n beyond 1 either way). Example: SELECT * FROM fleet.changed ORDER BY abs(e_n) DESC';

CREATE VIEW fleet.drift AS
  SELECT mode() WITHIN GROUP (ORDER BY machine) AS machine, mode() WITHIN GROUP (ORDER BY joint) AS joint,
         mode() WITHIN GROUP (ORDER BY holds) AS holds, count(*) AS fasteners, max(sisters) AS sisters,
         count(*) FILTER (WHERE e_n < -1) AS lower, count(*) FILTER (WHERE e_n > 1) AS higher,
         percentile_cont(0.5) WITHIN GROUP (ORDER BY ratio) AS median_ratio,
         percentile_cont(0.5) WITHIN GROUP (ORDER BY ratio - ratio_uncertainty) AS median_ratio_low,
         percentile_cont(0.5) WITHIN GROUP (ORDER BY ratio + ratio_uncertainty) AS median_ratio_high
  FROM fleet.beside_sisters GROUP BY lower(machine), lower(joint);
COMMENT ON VIEW fleet.drift IS 'How far each machine has drifted from its sisters, joint by joint. Example: SELECT * FROM fleet.drift WHERE machine = ''GB-1'' ORDER BY median_ratio';

CREATE VIEW fleet.overdue AS
  SELECT b.machine, l.joint, l.positions, l.asked, l.since_at, l.due_at, l.due_counter, l.counter,
         l.counter_unit, l.turned_degrees, b.file
  FROM fleet.look l JOIN fleet.logbook b USING (logbook)
  WHERE l.turned_degrees IS NOT NULL OR l.due_at <= fleet.moment() OR l.counter >= l.due_counter;
COMMENT ON VIEW fleet.overdue IS 'Looks at final stripes that are overdue, and stripes that were found turned. Example: SELECT * FROM fleet.overdue ORDER BY due_at';
