ALTER TABLE `configuration_revisions` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `configurations` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `merges` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `settings` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `key_revocations` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `keys` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `room_revisions` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `rooms` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `submitters` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `words` ADD `erased_sha256` text;
--> statement-breakpoint
ALTER TABLE `words` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `pictures` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `answers` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `questions` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `entries` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `events` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `method_adoptions` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `spreads` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `files` ADD `erased_sha256` text;
--> statement-breakpoint
ALTER TABLE `files` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `fingerprints` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `result_bands` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `results` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `runs` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `series` ADD `erased_sha256` text;
--> statement-breakpoint
ALTER TABLE `series` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `trial_measures` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `trial_revisions` ADD `row_sha256` text;
--> statement-breakpoint
ALTER TABLE `trials` ADD `row_sha256` text;
--> statement-breakpoint
-- A row from before is hashed once, and nothing else of it changes with that.
DROP TRIGGER submitters_no_update;
--> statement-breakpoint
CREATE TRIGGER submitters_no_update BEFORE UPDATE ON submitters
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.id IS OLD.id AND NEW.handle_digest IS OLD.handle_digest AND NEW.created_at IS OLD.created_at)
BEGIN SELECT RAISE(ABORT, 'submitters: insert-only, an id once given names one submitter for good'); END;
--> statement-breakpoint
DROP TRIGGER keys_no_update;
--> statement-breakpoint
CREATE TRIGGER keys_no_update BEFORE UPDATE ON keys
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.prefix IS OLD.prefix AND NEW.submitter IS OLD.submitter AND NEW.mac IS OLD.mac AND NEW.created_at IS OLD.created_at)
BEGIN SELECT RAISE(ABORT, 'keys: insert-only, a key is revoked by a row of its own, never edited'); END;
--> statement-breakpoint
DROP TRIGGER key_revocations_no_update;
--> statement-breakpoint
CREATE TRIGGER key_revocations_no_update BEFORE UPDATE ON key_revocations
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.prefix IS OLD.prefix AND NEW.at IS OLD.at)
BEGIN SELECT RAISE(ABORT, 'key_revocations: insert-only, a revocation cannot be taken back'); END;
--> statement-breakpoint
DROP TRIGGER rooms_no_update;
--> statement-breakpoint
CREATE TRIGGER rooms_no_update BEFORE UPDATE ON rooms
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.id IS OLD.id AND NEW.submitter IS OLD.submitter AND NEW.label_mac IS OLD.label_mac AND NEW.label_digest IS OLD.label_digest AND NEW.created_at IS OLD.created_at)
BEGIN SELECT RAISE(ABORT, 'rooms: insert-only, trials point at it'); END;
--> statement-breakpoint
DROP TRIGGER room_revisions_no_update;
--> statement-breakpoint
CREATE TRIGGER room_revisions_no_update BEFORE UPDATE ON room_revisions
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.room IS OLD.room AND NEW.revision IS OLD.revision AND NEW.volume_m3 IS OLD.volume_m3 AND NEW.volume_u IS OLD.volume_u AND NEW.basis IS OLD.basis AND NEW.at IS OLD.at)
BEGIN SELECT RAISE(ABORT, 'room_revisions: insert-only, a correction is another revision'); END;
--> statement-breakpoint
DROP TRIGGER configurations_no_update;
--> statement-breakpoint
CREATE TRIGGER configurations_no_update BEFORE UPDATE ON configurations
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.id IS OLD.id AND NEW.identity_sha256 IS OLD.identity_sha256 AND NEW.kind IS OLD.kind AND NEW.derived_from IS OLD.derived_from AND NEW.submitter IS OLD.submitter AND NEW.created_at IS OLD.created_at)
BEGIN SELECT RAISE(ABORT, 'configurations: insert-only, trials point at it'); END;
--> statement-breakpoint
DROP TRIGGER configuration_revisions_no_update;
--> statement-breakpoint
CREATE TRIGGER configuration_revisions_no_update BEFORE UPDATE ON configuration_revisions
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.configuration IS OLD.configuration AND NEW.revision IS OLD.revision AND NEW.title IS OLD.title AND NEW.json IS OLD.json AND NEW.sha256 IS OLD.sha256 AND NEW.at IS OLD.at)
BEGIN SELECT RAISE(ABORT, 'configuration_revisions: insert-only, a correction is another revision'); END;
--> statement-breakpoint
DROP TRIGGER merges_no_update;
--> statement-breakpoint
CREATE TRIGGER merges_no_update BEFORE UPDATE ON merges
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.configuration IS OLD.configuration AND NEW.merged_into IS OLD.merged_into AND NEW.reason IS OLD.reason AND NEW.at IS OLD.at)
BEGIN SELECT RAISE(ABORT, 'merges: insert-only, the old id answers with this for good'); END;
--> statement-breakpoint
DROP TRIGGER settings_no_update;
--> statement-breakpoint
CREATE TRIGGER settings_no_update BEFORE UPDATE ON settings
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.id IS OLD.id AND NEW.configuration IS OLD.configuration AND NEW.label IS OLD.label AND NEW.folded IS OLD.folded AND NEW.stated_json IS OLD.stated_json AND NEW.at IS OLD.at)
BEGIN SELECT RAISE(ABORT, 'settings: insert-only, trials point at it'); END;
--> statement-breakpoint
DROP TRIGGER trials_no_update;
--> statement-breakpoint
CREATE TRIGGER trials_no_update BEFORE UPDATE ON trials
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.id IS OLD.id AND NEW.submitter IS OLD.submitter AND NEW.configuration IS OLD.configuration AND NEW.setting IS OLD.setting AND NEW.room IS OLD.room AND NEW.interest IS OLD.interest AND NEW.aerosol IS OLD.aerosol AND NEW.invented IS OLD.invented AND NEW.content_mac IS OLD.content_mac AND NEW.idempotency_key IS OLD.idempotency_key AND NEW.created_at IS OLD.created_at)
BEGIN SELECT RAISE(ABORT, 'trials: insert-only, a trial is amended by a revision and withdrawn by an event'); END;
--> statement-breakpoint
DROP TRIGGER trial_revisions_no_update;
--> statement-breakpoint
CREATE TRIGGER trial_revisions_no_update BEFORE UPDATE ON trial_revisions
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.trial IS OLD.trial AND NEW.revision IS OLD.revision AND NEW.json IS OLD.json AND NEW.sha256 IS OLD.sha256 AND NEW.at IS OLD.at AND NEW.interest IS OLD.interest AND NEW.aerosol IS OLD.aerosol AND NEW.reason IS OLD.reason)
BEGIN SELECT RAISE(ABORT, 'trial_revisions: insert-only, its hash is quoted'); END;
--> statement-breakpoint
DROP TRIGGER runs_no_update;
--> statement-breakpoint
CREATE TRIGGER runs_no_update BEFORE UPDATE ON runs
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.trial IS OLD.trial AND NEW.revision IS OLD.revision AND NEW.n IS OLD.n AND NEW.role IS OLD.role AND NEW.counter IS OLD.counter AND NEW.series IS OLD.series AND NEW.file IS OLD.file AND NEW.from_trial IS OLD.from_trial AND NEW.from_revision IS OLD.from_revision AND NEW.from_n IS OLD.from_n AND NEW.start_ms IS OLD.start_ms AND NEW.analysis_json IS OLD.analysis_json)
BEGIN SELECT RAISE(ABORT, 'runs: insert-only, results were made from it'); END;
--> statement-breakpoint
DROP TRIGGER results_no_update;
--> statement-breakpoint
CREATE TRIGGER results_no_update BEFORE UPDATE ON results
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.trial IS OLD.trial AND NEW.revision IS OLD.revision AND NEW.method_version IS OLD.method_version AND NEW.method_ordinal IS OLD.method_ordinal AND NEW.room_revision IS OLD.room_revision AND NEW.json IS OLD.json AND NEW.sha256 IS OLD.sha256 AND NEW.at IS OLD.at)
BEGIN SELECT RAISE(ABORT, 'results: insert-only, its figures are quoted; a new method version adds a row beside it'); END;
--> statement-breakpoint
DROP TRIGGER result_bands_no_update;
--> statement-breakpoint
CREATE TRIGGER result_bands_no_update BEFORE UPDATE ON result_bands
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.trial IS OLD.trial AND NEW.revision IS OLD.revision AND NEW.method_version IS OLD.method_version AND NEW.band IS OLD.band AND NEW.cadr_m3_per_h IS OLD.cadr_m3_per_h AND NEW.cadr_u IS OLD.cadr_u AND NEW.cadr_dof IS OLD.cadr_dof AND NEW.k_difference_per_h IS OLD.k_difference_per_h AND NEW.k_difference_u IS OLD.k_difference_u AND NEW.k_difference_dof IS OLD.k_difference_dof AND NEW.paired IS OLD.paired AND NEW.k_natural_per_h IS OLD.k_natural_per_h AND NEW.k_natural_u IS OLD.k_natural_u AND NEW.natural_source IS OLD.natural_source AND NEW.serious IS OLD.serious)
BEGIN SELECT RAISE(ABORT, 'result_bands: insert-only, pools were made from it'); END;
--> statement-breakpoint
DROP TRIGGER events_no_update;
--> statement-breakpoint
CREATE TRIGGER events_no_update BEFORE UPDATE ON events
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.seq IS OLD.seq AND NEW.at IS OLD.at AND NEW.kind IS OLD.kind AND NEW.subject IS OLD.subject AND NEW.actor IS OLD.actor AND NEW.reason IS OLD.reason)
BEGIN SELECT RAISE(ABORT, 'events: insert-only, it is the history readers see and a rebuild replays'); END;
--> statement-breakpoint
DROP TRIGGER entries_no_update;
--> statement-breakpoint
CREATE TRIGGER entries_no_update BEFORE UPDATE ON entries
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.id IS OLD.id AND NEW.setting IS OLD.setting AND NEW.band IS OLD.band AND NEW.invented IS OLD.invented AND NEW.created_at IS OLD.created_at)
BEGIN SELECT RAISE(ABORT, 'entries: insert-only, its id is quoted'); END;
--> statement-breakpoint
DROP TRIGGER files_only_erasure;
--> statement-breakpoint
CREATE TRIGGER files_only_erasure BEFORE UPDATE ON files
WHEN NOT (OLD.bytes IS NOT NULL AND NEW.bytes IS NULL AND NEW.erased_reason IS NOT NULL AND NEW.erased_at IS NOT NULL AND NEW.sha256 IS OLD.sha256 AND NEW.size IS OLD.size AND NEW.erased_sha256 IS NOT NULL AND NEW.row_sha256 IS OLD.row_sha256) AND NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.sha256 IS OLD.sha256 AND NEW.size IS OLD.size AND NEW.bytes IS OLD.bytes AND NEW.erased_at IS OLD.erased_at AND NEW.erased_reason IS OLD.erased_reason)
BEGIN SELECT RAISE(ABORT, 'files: only erasure is allowed'); END;
--> statement-breakpoint
DROP TRIGGER series_only_erasure;
--> statement-breakpoint
CREATE TRIGGER series_only_erasure BEFORE UPDATE ON series
WHEN NOT (OLD.bytes IS NOT NULL AND NEW.bytes IS NULL AND NEW.erased_reason IS NOT NULL AND NEW.erased_at IS NOT NULL AND NEW.sha256 IS OLD.sha256 AND NEW.rows IS OLD.rows AND NEW.channels_json IS OLD.channels_json AND NEW.erased_sha256 IS NOT NULL AND NEW.row_sha256 IS OLD.row_sha256) AND NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.sha256 IS OLD.sha256 AND NEW.rows IS OLD.rows AND NEW.channels_json IS OLD.channels_json AND NEW.bytes IS OLD.bytes AND NEW.erased_at IS OLD.erased_at AND NEW.erased_reason IS OLD.erased_reason)
BEGIN SELECT RAISE(ABORT, 'series: only erasure is allowed'); END;
--> statement-breakpoint
DROP TRIGGER words_only_erasure;
--> statement-breakpoint
CREATE TRIGGER words_only_erasure BEFORE UPDATE ON words
WHEN NOT (OLD.text IS NOT NULL AND NEW.text IS NULL AND NEW.salt IS NULL AND NEW.erased_reason IS NOT NULL AND NEW.erased_at IS NOT NULL AND NEW.digest IS OLD.digest AND NEW.erased_sha256 IS NOT NULL AND NEW.row_sha256 IS OLD.row_sha256) AND NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.digest IS OLD.digest AND NEW.salt IS OLD.salt AND NEW.text IS OLD.text AND NEW.erased_at IS OLD.erased_at AND NEW.erased_reason IS OLD.erased_reason)
BEGIN SELECT RAISE(ABORT, 'words: only erasure is allowed'); END;
--> statement-breakpoint
DROP TRIGGER trial_measures_no_update;
--> statement-breakpoint
CREATE TRIGGER trial_measures_no_update BEFORE UPDATE ON trial_measures
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.trial IS OLD.trial AND NEW.revision IS OLD.revision AND NEW.noise_db IS OLD.noise_db AND NEW.noise_u IS OLD.noise_u AND NEW.noise_dof IS OLD.noise_dof AND NEW.noise_bound IS OLD.noise_bound AND NEW.power_w IS OLD.power_w AND NEW.power_u IS OLD.power_u)
BEGIN SELECT RAISE(ABORT, 'trial_measures: insert-only, pools were made from it'); END;
--> statement-breakpoint
DROP TRIGGER spreads_no_update;
--> statement-breakpoint
CREATE TRIGGER spreads_no_update BEFORE UPDATE ON spreads
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.id IS OLD.id AND NEW.at IS OLD.at AND NEW.relative IS OLD.relative AND NEW.dof IS OLD.dof AND NEW.source IS OLD.source AND NEW.entries IS OLD.entries AND NEW.event IS OLD.event)
BEGIN SELECT RAISE(ABORT, 'spreads: insert-only, pools were made with it; another value is another row'); END;
--> statement-breakpoint
DROP TRIGGER method_adoptions_no_update;
--> statement-breakpoint
CREATE TRIGGER method_adoptions_no_update BEFORE UPDATE ON method_adoptions
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.ordinal IS OLD.ordinal AND NEW.version IS OLD.version AND NEW.at IS OLD.at AND NEW.event IS OLD.event)
BEGIN SELECT RAISE(ABORT, 'method_adoptions: insert-only, readers saw it'); END;
--> statement-breakpoint
DROP TRIGGER questions_no_update;
--> statement-breakpoint
CREATE TRIGGER questions_no_update BEFORE UPDATE ON questions
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.id IS OLD.id AND NEW.trial IS OLD.trial AND NEW.revision IS OLD.revision AND NEW.digest IS OLD.digest AND NEW.at IS OLD.at)
BEGIN SELECT RAISE(ABORT, 'questions: insert-only, it was asked'); END;
--> statement-breakpoint
DROP TRIGGER answers_no_update;
--> statement-breakpoint
CREATE TRIGGER answers_no_update BEFORE UPDATE ON answers
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.question IS OLD.question AND NEW.n IS OLD.n AND NEW.author IS OLD.author AND NEW.digest IS OLD.digest AND NEW.at IS OLD.at)
BEGIN SELECT RAISE(ABORT, 'answers: insert-only, it was answered'); END;
--> statement-breakpoint
DROP TRIGGER fingerprints_no_update;
--> statement-breakpoint
CREATE TRIGGER fingerprints_no_update BEFORE UPDATE ON fingerprints
WHEN NOT (OLD.row_sha256 IS NULL AND NEW.row_sha256 IS NOT NULL AND NEW.hash IS OLD.hash AND NEW.trial IS OLD.trial AND NEW.revision IS OLD.revision AND NEW.n IS OLD.n)
BEGIN SELECT RAISE(ABORT, 'fingerprints: insert-only, made of readings that stay'); END;
