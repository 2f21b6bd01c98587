-- What was measured and decided stays as it was: rows of these tables are inserted, never changed or removed.
CREATE TRIGGER trial_measures_no_update BEFORE UPDATE ON trial_measures
BEGIN SELECT RAISE(ABORT, 'trial_measures: insert-only, pools were made from it'); END;
--> statement-breakpoint
CREATE TRIGGER trial_measures_no_delete BEFORE DELETE ON trial_measures
BEGIN SELECT RAISE(ABORT, 'trial_measures: insert-only, pools were made from it'); END;
--> statement-breakpoint
CREATE TRIGGER spreads_no_update BEFORE UPDATE ON spreads
BEGIN SELECT RAISE(ABORT, 'spreads: insert-only, pools were made with it; another value is another row'); END;
--> statement-breakpoint
CREATE TRIGGER spreads_no_delete BEFORE DELETE ON spreads
BEGIN SELECT RAISE(ABORT, 'spreads: insert-only, pools were made with it; another value is another row'); END;
--> statement-breakpoint
CREATE TRIGGER setting_moves_no_update BEFORE UPDATE ON setting_moves
BEGIN SELECT RAISE(ABORT, 'setting_moves: insert-only, trials count where it points for good'); END;
--> statement-breakpoint
CREATE TRIGGER setting_moves_no_delete BEFORE DELETE ON setting_moves
BEGIN SELECT RAISE(ABORT, 'setting_moves: insert-only, trials count where it points for good'); END;
--> statement-breakpoint
-- The newest pooled row of an entry and basis stands; one without a value stands nowhere. (Made again: its table was.)
CREATE TRIGGER pooled_stands AFTER INSERT ON pooled
BEGIN
  DELETE FROM standings WHERE entry = NEW.entry AND basis = NEW.basis;
  INSERT INTO standings (entry, basis, band, seq, cadr_m3_per_h)
    SELECT NEW.entry, NEW.basis, e.band, NEW.seq, NEW.cadr_m3_per_h FROM entries e
    WHERE e.id = NEW.entry AND NEW.cadr_m3_per_h IS NOT NULL;
END;
--> statement-breakpoint
-- Results stored before lack their natural loss, which their own JSON holds: the one time that rows of this table change.
DROP TRIGGER result_bands_no_update;
--> statement-breakpoint
UPDATE result_bands SET
  k_natural_per_h = (SELECT b.value ->> '$.natural.k.value' FROM results s, json_each(s.json, '$.results') b
    WHERE s.trial = result_bands.trial AND s.revision = result_bands.revision AND s.method_version = result_bands.method_version
      AND b.value ->> '$.band.kind' = 'standard' AND b.value ->> '$.band.name' = result_bands.band),
  k_natural_u = (SELECT b.value ->> '$.natural.k.u' FROM results s, json_each(s.json, '$.results') b
    WHERE s.trial = result_bands.trial AND s.revision = result_bands.revision AND s.method_version = result_bands.method_version
      AND b.value ->> '$.band.kind' = 'standard' AND b.value ->> '$.band.name' = result_bands.band),
  -- A natural run may be taken from a trial that took it itself: followed to where it was logged. Of several, a taken one names the source.
  natural_source = (WITH RECURSIVE origins (trial, revision, n, taken) AS (
      SELECT s.trial, s.revision, c.value ->> '$.run', 0
        FROM results s, json_each(s.json, '$.results') b, json_each(b.value, '$.natural.counters') c
        WHERE s.trial = result_bands.trial AND s.revision = result_bands.revision AND s.method_version = result_bands.method_version
          AND b.value ->> '$.band.kind' = 'standard' AND b.value ->> '$.band.name' = result_bands.band
      UNION
      SELECT r.from_trial, r.from_revision, r.from_n, 1 FROM origins o
        JOIN runs r ON r.trial = o.trial AND r.revision = o.revision AND r.n = o.n WHERE r.from_trial IS NOT NULL)
    SELECT o.trial || '/' || o.revision || '/' || o.n FROM origins o
      JOIN runs r ON r.trial = o.trial AND r.revision = o.revision AND r.n = o.n
      WHERE r.from_trial IS NULL ORDER BY o.taken DESC, o.n LIMIT 1);
--> statement-breakpoint
CREATE TRIGGER result_bands_no_update BEFORE UPDATE ON result_bands
BEGIN SELECT RAISE(ABORT, 'result_bands: insert-only, pools were made from it'); END;
