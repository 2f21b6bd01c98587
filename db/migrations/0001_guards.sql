-- What was published stays as it was: rows of these tables are inserted, never changed or removed.
CREATE TRIGGER submitters_no_update BEFORE UPDATE ON submitters
BEGIN SELECT RAISE(ABORT, 'submitters: insert-only, an id once given names one submitter for good'); END;
--> statement-breakpoint
CREATE TRIGGER submitters_no_delete BEFORE DELETE ON submitters
BEGIN SELECT RAISE(ABORT, 'submitters: insert-only, an id once given names one submitter for good'); END;
--> statement-breakpoint
CREATE TRIGGER keys_no_update BEFORE UPDATE ON keys
BEGIN SELECT RAISE(ABORT, 'keys: insert-only, a key is revoked by a row of its own, never edited'); END;
--> statement-breakpoint
CREATE TRIGGER keys_no_delete BEFORE DELETE ON keys
BEGIN SELECT RAISE(ABORT, 'keys: insert-only, a key is revoked by a row of its own, never edited'); END;
--> statement-breakpoint
CREATE TRIGGER key_revocations_no_update BEFORE UPDATE ON key_revocations
BEGIN SELECT RAISE(ABORT, 'key_revocations: insert-only, a revocation cannot be taken back'); END;
--> statement-breakpoint
CREATE TRIGGER key_revocations_no_delete BEFORE DELETE ON key_revocations
BEGIN SELECT RAISE(ABORT, 'key_revocations: insert-only, a revocation cannot be taken back'); END;
--> statement-breakpoint
CREATE TRIGGER rooms_no_update BEFORE UPDATE ON rooms
BEGIN SELECT RAISE(ABORT, 'rooms: insert-only, trials point at it'); END;
--> statement-breakpoint
CREATE TRIGGER rooms_no_delete BEFORE DELETE ON rooms
BEGIN SELECT RAISE(ABORT, 'rooms: insert-only, trials point at it'); END;
--> statement-breakpoint
CREATE TRIGGER room_revisions_no_update BEFORE UPDATE ON room_revisions
BEGIN SELECT RAISE(ABORT, 'room_revisions: insert-only, a correction is another revision'); END;
--> statement-breakpoint
CREATE TRIGGER room_revisions_no_delete BEFORE DELETE ON room_revisions
BEGIN SELECT RAISE(ABORT, 'room_revisions: insert-only, a correction is another revision'); END;
--> statement-breakpoint
CREATE TRIGGER configurations_no_update BEFORE UPDATE ON configurations
BEGIN SELECT RAISE(ABORT, 'configurations: insert-only, trials point at it'); END;
--> statement-breakpoint
CREATE TRIGGER configurations_no_delete BEFORE DELETE ON configurations
BEGIN SELECT RAISE(ABORT, 'configurations: insert-only, trials point at it'); END;
--> statement-breakpoint
CREATE TRIGGER configuration_revisions_no_update BEFORE UPDATE ON configuration_revisions
BEGIN SELECT RAISE(ABORT, 'configuration_revisions: insert-only, a correction is another revision'); END;
--> statement-breakpoint
CREATE TRIGGER configuration_revisions_no_delete BEFORE DELETE ON configuration_revisions
BEGIN SELECT RAISE(ABORT, 'configuration_revisions: insert-only, a correction is another revision'); END;
--> statement-breakpoint
CREATE TRIGGER merges_no_update BEFORE UPDATE ON merges
BEGIN SELECT RAISE(ABORT, 'merges: insert-only, the old id answers with this for good'); END;
--> statement-breakpoint
CREATE TRIGGER merges_no_delete BEFORE DELETE ON merges
BEGIN SELECT RAISE(ABORT, 'merges: insert-only, the old id answers with this for good'); END;
--> statement-breakpoint
CREATE TRIGGER settings_no_update BEFORE UPDATE ON settings
BEGIN SELECT RAISE(ABORT, 'settings: insert-only, trials point at it'); END;
--> statement-breakpoint
CREATE TRIGGER settings_no_delete BEFORE DELETE ON settings
BEGIN SELECT RAISE(ABORT, 'settings: insert-only, trials point at it'); END;
--> statement-breakpoint
CREATE TRIGGER trials_no_update BEFORE UPDATE ON trials
BEGIN SELECT RAISE(ABORT, 'trials: insert-only, a trial is amended by a revision and withdrawn by an event'); END;
--> statement-breakpoint
CREATE TRIGGER trials_no_delete BEFORE DELETE ON trials
BEGIN SELECT RAISE(ABORT, 'trials: insert-only, a trial is amended by a revision and withdrawn by an event'); END;
--> statement-breakpoint
CREATE TRIGGER trial_revisions_no_update BEFORE UPDATE ON trial_revisions
BEGIN SELECT RAISE(ABORT, 'trial_revisions: insert-only, its hash is quoted'); END;
--> statement-breakpoint
CREATE TRIGGER trial_revisions_no_delete BEFORE DELETE ON trial_revisions
BEGIN SELECT RAISE(ABORT, 'trial_revisions: insert-only, its hash is quoted'); END;
--> statement-breakpoint
CREATE TRIGGER runs_no_update BEFORE UPDATE ON runs
BEGIN SELECT RAISE(ABORT, 'runs: insert-only, results were made from it'); END;
--> statement-breakpoint
CREATE TRIGGER runs_no_delete BEFORE DELETE ON runs
BEGIN SELECT RAISE(ABORT, 'runs: insert-only, results were made from it'); END;
--> statement-breakpoint
CREATE TRIGGER results_no_update BEFORE UPDATE ON results
BEGIN SELECT RAISE(ABORT, 'results: insert-only, its figures are quoted; a new method version adds a row beside it'); END;
--> statement-breakpoint
CREATE TRIGGER results_no_delete BEFORE DELETE ON results
BEGIN SELECT RAISE(ABORT, 'results: insert-only, its figures are quoted; a new method version adds a row beside it'); END;
--> statement-breakpoint
CREATE TRIGGER result_bands_no_update BEFORE UPDATE ON result_bands
BEGIN SELECT RAISE(ABORT, 'result_bands: insert-only, pools were made from it'); END;
--> statement-breakpoint
CREATE TRIGGER result_bands_no_delete BEFORE DELETE ON result_bands
BEGIN SELECT RAISE(ABORT, 'result_bands: insert-only, pools were made from it'); END;
--> statement-breakpoint
CREATE TRIGGER events_no_update BEFORE UPDATE ON events
BEGIN SELECT RAISE(ABORT, 'events: insert-only, it is the history readers see and a rebuild replays'); END;
--> statement-breakpoint
CREATE TRIGGER events_no_delete BEFORE DELETE ON events
BEGIN SELECT RAISE(ABORT, 'events: insert-only, it is the history readers see and a rebuild replays'); END;
--> statement-breakpoint
CREATE TRIGGER entries_no_update BEFORE UPDATE ON entries
BEGIN SELECT RAISE(ABORT, 'entries: insert-only, its id is quoted'); END;
--> statement-breakpoint
CREATE TRIGGER entries_no_delete BEFORE DELETE ON entries
BEGIN SELECT RAISE(ABORT, 'entries: insert-only, its id is quoted'); END;
--> statement-breakpoint
-- One change is allowed: the content is erased, with a reason and a date; the hash stays.
CREATE TRIGGER files_only_erasure BEFORE UPDATE ON files
WHEN NOT (OLD.bytes IS NOT NULL AND NEW.bytes IS NULL AND NEW.erased_reason IS NOT NULL AND NEW.erased_at IS NOT NULL AND NEW.sha256 IS OLD.sha256 AND NEW.size IS OLD.size)
BEGIN SELECT RAISE(ABORT, 'files: only erasure is allowed'); END;
--> statement-breakpoint
CREATE TRIGGER files_no_delete BEFORE DELETE ON files
BEGIN SELECT RAISE(ABORT, 'files: the hash stays'); END;
--> statement-breakpoint
-- One change is allowed: the content is erased, with a reason and a date; the hash stays.
CREATE TRIGGER series_only_erasure BEFORE UPDATE ON series
WHEN NOT (OLD.bytes IS NOT NULL AND NEW.bytes IS NULL AND NEW.erased_reason IS NOT NULL AND NEW.erased_at IS NOT NULL AND NEW.sha256 IS OLD.sha256 AND NEW.rows IS OLD.rows AND NEW.channels_json IS OLD.channels_json)
BEGIN SELECT RAISE(ABORT, 'series: only erasure is allowed'); END;
--> statement-breakpoint
CREATE TRIGGER series_no_delete BEFORE DELETE ON series
BEGIN SELECT RAISE(ABORT, 'series: the hash stays'); END;
--> statement-breakpoint
-- One change is allowed: the content is erased, with a reason and a date; the hash stays.
CREATE TRIGGER words_only_erasure BEFORE UPDATE ON words
WHEN NOT (OLD.text IS NOT NULL AND NEW.text IS NULL AND NEW.salt IS NULL AND NEW.erased_reason IS NOT NULL AND NEW.erased_at IS NOT NULL AND NEW.digest IS OLD.digest)
BEGIN SELECT RAISE(ABORT, 'words: only erasure is allowed'); END;
--> statement-breakpoint
CREATE TRIGGER words_no_delete BEFORE DELETE ON words
BEGIN SELECT RAISE(ABORT, 'words: the hash stays'); END;
--> statement-breakpoint
-- A writer states what it read; the whole batch fails where that is no longer so. Nothing is ever stored here.
CREATE VIEW expectations AS SELECT 1 AS holds, '' AS what;
--> statement-breakpoint
CREATE TRIGGER expectations_hold INSTEAD OF INSERT ON expectations WHEN NEW.holds IS NOT 1
BEGIN SELECT RAISE(ABORT, 'stale read'); END;
--> statement-breakpoint
-- The newest pooled row of an entry and basis stands; one without a value stands nowhere.
CREATE TRIGGER pooled_stands AFTER INSERT ON pooled
BEGIN
  DELETE FROM standings WHERE entry = NEW.entry AND basis = NEW.basis;
  INSERT INTO standings (entry, basis, band, seq, cadr_m3_per_h)
    SELECT NEW.entry, NEW.basis, e.band, NEW.seq, NEW.cadr_m3_per_h FROM entries e
    WHERE e.id = NEW.entry AND NEW.cadr_m3_per_h IS NOT NULL;
END;
