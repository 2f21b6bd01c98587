CREATE TABLE `pictures` (
	`pin` text NOT NULL,
	`kind` text NOT NULL,
	`png` blob NOT NULL,
	`sha256` text NOT NULL,
	`at` text NOT NULL,
	PRIMARY KEY(`pin`, `kind`),
	CONSTRAINT "pictures_kind" CHECK("pictures"."kind" IN ('light', 'dark'))
);
--> statement-breakpoint
CREATE TABLE `answers` (
	`question` text NOT NULL,
	`n` integer NOT NULL,
	`author` text NOT NULL,
	`digest` text NOT NULL,
	`at` text NOT NULL,
	PRIMARY KEY(`question`, `n`),
	FOREIGN KEY (`question`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`digest`) REFERENCES `words`(`digest`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "answers_from_1" CHECK("answers"."n" >= 1)
);
--> statement-breakpoint
CREATE TABLE `questions` (
	`id` text PRIMARY KEY NOT NULL,
	`trial` text NOT NULL,
	`revision` integer NOT NULL,
	`digest` text NOT NULL,
	`at` text NOT NULL,
	FOREIGN KEY (`digest`) REFERENCES `words`(`digest`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`trial`,`revision`) REFERENCES `trial_revisions`(`trial`,`revision`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `questions_trial` ON `questions` (`trial`,`at`);--> statement-breakpoint
CREATE INDEX `questions_at` ON `questions` (`at`);--> statement-breakpoint
CREATE TABLE `method_adoptions` (
	`ordinal` integer PRIMARY KEY NOT NULL,
	`version` text NOT NULL,
	`at` text NOT NULL,
	`event` integer,
	FOREIGN KEY (`event`) REFERENCES `events`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "method_adoptions_event" CHECK(("method_adoptions"."event" IS NULL) = ("method_adoptions"."ordinal" = 1))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `method_adoptions_version` ON `method_adoptions` (`version`);--> statement-breakpoint
-- All results so far are of the method's first version.
ALTER TABLE `results` ADD `method_ordinal` integer NOT NULL DEFAULT 1;
--> statement-breakpoint
CREATE INDEX `results_by_method` ON `results` (`method_ordinal`,`trial`);
--> statement-breakpoint
-- Filled from the trials below; the default is never used again, and is the one that hides no conflict of interest.
ALTER TABLE `trial_revisions` ADD `interest` text NOT NULL DEFAULT 'maker_or_seller' CHECK (interest IN ('independent', 'lent_or_given', 'paid', 'maker_or_seller'));
--> statement-breakpoint
ALTER TABLE `trial_revisions` ADD `aerosol` text NOT NULL DEFAULT 'other';
--> statement-breakpoint
ALTER TABLE `trial_revisions` ADD `reason` text CHECK ((reason IS NULL) = (revision = 1));
--> statement-breakpoint
DROP TRIGGER trial_revisions_no_update;
--> statement-breakpoint
UPDATE trial_revisions SET interest = (SELECT t.interest FROM trials t WHERE t.id = trial_revisions.trial), aerosol = (SELECT t.aerosol FROM trials t WHERE t.id = trial_revisions.trial);
--> statement-breakpoint
CREATE TRIGGER trial_revisions_no_update BEFORE UPDATE ON trial_revisions
BEGIN SELECT RAISE(ABORT, 'trial_revisions: insert-only, its hash is quoted'); END;
--> statement-breakpoint
INSERT INTO method_adoptions (ordinal, version, at, event) VALUES (1, '1.0.0', '2026-11-25T00:00:00.000Z', NULL);
--> statement-breakpoint
CREATE TRIGGER method_adoptions_no_update BEFORE UPDATE ON method_adoptions
BEGIN SELECT RAISE(ABORT, 'method_adoptions: insert-only, readers saw it'); END;
--> statement-breakpoint
CREATE TRIGGER method_adoptions_no_delete BEFORE DELETE ON method_adoptions
BEGIN SELECT RAISE(ABORT, 'method_adoptions: insert-only, readers saw it'); END;
--> statement-breakpoint
CREATE TRIGGER questions_no_update BEFORE UPDATE ON questions
BEGIN SELECT RAISE(ABORT, 'questions: insert-only, it was asked'); END;
--> statement-breakpoint
CREATE TRIGGER questions_no_delete BEFORE DELETE ON questions
BEGIN SELECT RAISE(ABORT, 'questions: insert-only, it was asked'); END;
--> statement-breakpoint
CREATE TRIGGER answers_no_update BEFORE UPDATE ON answers
BEGIN SELECT RAISE(ABORT, 'answers: insert-only, it was answered'); END;
--> statement-breakpoint
CREATE TRIGGER answers_no_delete BEFORE DELETE ON answers
BEGIN SELECT RAISE(ABORT, 'answers: insert-only, it was answered'); END;
