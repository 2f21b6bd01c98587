CREATE TABLE `configuration_revisions` (
	`configuration` text NOT NULL,
	`revision` integer NOT NULL,
	`title` text NOT NULL,
	`json` text NOT NULL,
	`sha256` text NOT NULL,
	`at` text NOT NULL,
	PRIMARY KEY(`configuration`, `revision`),
	FOREIGN KEY (`configuration`) REFERENCES `configurations`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `configurations` (
	`id` text PRIMARY KEY NOT NULL,
	`identity_sha256` text NOT NULL,
	`kind` text NOT NULL,
	`derived_from` text,
	`submitter` text NOT NULL,
	`created_at` text NOT NULL,
	FOREIGN KEY (`derived_from`) REFERENCES `configurations`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`submitter`) REFERENCES `submitters`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "configurations_kind" CHECK("configurations"."kind" IN ('user_built', 'commercial')),
	CONSTRAINT "configurations_not_own_parent" CHECK("configurations"."derived_from" IS NULL OR "configurations"."derived_from" <> "configurations"."id")
);
--> statement-breakpoint
CREATE UNIQUE INDEX `configurations_identity` ON `configurations` (`identity_sha256`);--> statement-breakpoint
CREATE TABLE `merges` (
	`configuration` text PRIMARY KEY NOT NULL,
	`merged_into` text NOT NULL,
	`reason` text NOT NULL,
	`at` text NOT NULL,
	FOREIGN KEY (`configuration`) REFERENCES `configurations`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`merged_into`) REFERENCES `configurations`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "merges_into_other" CHECK("merges"."merged_into" <> "merges"."configuration")
);
--> statement-breakpoint
CREATE TABLE `settings` (
	`id` integer PRIMARY KEY NOT NULL,
	`configuration` text NOT NULL,
	`label` text NOT NULL,
	`folded` text NOT NULL,
	`stated_json` text NOT NULL,
	`at` text NOT NULL,
	FOREIGN KEY (`configuration`) REFERENCES `configurations`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `settings_label` ON `settings` (`configuration`,`folded`);--> statement-breakpoint
CREATE TABLE `key_revocations` (
	`prefix` text PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	FOREIGN KEY (`prefix`) REFERENCES `keys`(`prefix`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `keys` (
	`prefix` text PRIMARY KEY NOT NULL,
	`submitter` text NOT NULL,
	`mac` blob NOT NULL,
	`created_at` text NOT NULL,
	FOREIGN KEY (`submitter`) REFERENCES `submitters`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "keys_mac_length" CHECK(length("keys"."mac") = 32)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `keys_mac` ON `keys` (`mac`);--> statement-breakpoint
CREATE TABLE `room_revisions` (
	`room` text NOT NULL,
	`revision` integer NOT NULL,
	`volume_m3` real NOT NULL,
	`volume_u` real NOT NULL,
	`basis` text NOT NULL,
	`at` text NOT NULL,
	PRIMARY KEY(`room`, `revision`),
	FOREIGN KEY (`room`) REFERENCES `rooms`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "room_revisions_volume" CHECK("room_revisions"."volume_m3" > 0),
	CONSTRAINT "room_revisions_u" CHECK("room_revisions"."volume_u" >= 0),
	CONSTRAINT "room_revisions_from_1" CHECK("room_revisions"."revision" >= 1)
);
--> statement-breakpoint
CREATE TABLE `rooms` (
	`id` text PRIMARY KEY NOT NULL,
	`submitter` text NOT NULL,
	`label_mac` blob,
	`label_digest` text,
	`created_at` text NOT NULL,
	FOREIGN KEY (`submitter`) REFERENCES `submitters`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`label_digest`) REFERENCES `words`(`digest`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "rooms_label_whole" CHECK(("rooms"."label_mac" IS NULL) = ("rooms"."label_digest" IS NULL))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `rooms_label` ON `rooms` (`submitter`,`label_mac`);--> statement-breakpoint
CREATE TABLE `submitters` (
	`id` text PRIMARY KEY NOT NULL,
	`handle_digest` text,
	`created_at` text NOT NULL,
	FOREIGN KEY (`handle_digest`) REFERENCES `words`(`digest`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `words` (
	`digest` text PRIMARY KEY NOT NULL,
	`salt` blob,
	`text` text,
	`erased_at` text,
	`erased_reason` text,
	CONSTRAINT "words_whole_or_erased" CHECK(("words"."text" IS NULL) = ("words"."erased_reason" IS NOT NULL)),
	CONSTRAINT "words_salt_with_text" CHECK(("words"."salt" IS NULL) = ("words"."text" IS NULL))
);
--> statement-breakpoint
CREATE TABLE `entries` (
	`id` text PRIMARY KEY NOT NULL,
	`setting` integer NOT NULL,
	`band` text NOT NULL,
	`invented` integer NOT NULL,
	`created_at` text NOT NULL,
	FOREIGN KEY (`setting`) REFERENCES `settings`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "entries_band" CHECK("entries"."band" IN ('0.1-1.0', '0.5-3.0', '5-11', 'mass'))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `entries_one` ON `entries` (`setting`,`band`,`invented`);--> statement-breakpoint
CREATE TABLE `events` (
	`seq` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` text NOT NULL,
	`kind` text NOT NULL,
	`subject` text NOT NULL,
	`actor` text NOT NULL,
	`reason` text
);
--> statement-breakpoint
CREATE INDEX `events_subject` ON `events` (`subject`,`seq`);--> statement-breakpoint
CREATE TABLE `pooled` (
	`entry` text NOT NULL,
	`basis` text NOT NULL,
	`seq` integer NOT NULL,
	`cadr_m3_per_h` real,
	`u` real,
	`dof` real,
	`low` real,
	`high` real,
	`trials` integer NOT NULL,
	`rooms` integer NOT NULL,
	`submitters` integer NOT NULL,
	`unpaired` integer NOT NULL,
	`interest_json` text NOT NULL,
	`members_hash` text NOT NULL,
	`method_version` text NOT NULL,
	PRIMARY KEY(`entry`, `basis`, `seq`),
	FOREIGN KEY (`entry`) REFERENCES `entries`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`seq`) REFERENCES `events`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "pooled_whole" CHECK(("pooled"."cadr_m3_per_h" IS NULL) = ("pooled"."trials" = 0))
);
--> statement-breakpoint
CREATE INDEX `pooled_by_seq` ON `pooled` (`seq`);--> statement-breakpoint
CREATE TABLE `standings` (
	`entry` text NOT NULL,
	`basis` text NOT NULL,
	`band` text NOT NULL,
	`seq` integer NOT NULL,
	`cadr_m3_per_h` real NOT NULL,
	PRIMARY KEY(`entry`, `basis`),
	FOREIGN KEY (`entry`) REFERENCES `entries`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `standings_by_cadr` ON `standings` (`band`,`basis`,"cadr_m3_per_h" DESC,`entry`);--> statement-breakpoint
CREATE TABLE `trial_states` (
	`trial` text PRIMARY KEY NOT NULL,
	`state` text NOT NULL,
	`seq` integer NOT NULL,
	FOREIGN KEY (`trial`) REFERENCES `trials`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`seq`) REFERENCES `events`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "trial_states_state" CHECK("trial_states"."state" IN ('listed', 'pending', 'questioned', 'withdrawn'))
);
--> statement-breakpoint
CREATE TABLE `files` (
	`sha256` text PRIMARY KEY NOT NULL,
	`size` integer NOT NULL,
	`bytes` blob,
	`erased_at` text,
	`erased_reason` text,
	CONSTRAINT "files_whole_or_erased" CHECK(("files"."bytes" IS NULL) = ("files"."erased_reason" IS NOT NULL)),
	CONSTRAINT "files_size" CHECK("files"."bytes" IS NULL OR length("files"."bytes") = "files"."size")
);
--> statement-breakpoint
CREATE TABLE `result_bands` (
	`trial` text NOT NULL,
	`revision` integer NOT NULL,
	`method_version` text NOT NULL,
	`band` text NOT NULL,
	`cadr_m3_per_h` real NOT NULL,
	`cadr_u` real NOT NULL,
	`cadr_dof` real,
	`k_difference_per_h` real NOT NULL,
	`k_difference_u` real NOT NULL,
	`k_difference_dof` real,
	`paired` integer NOT NULL,
	PRIMARY KEY(`trial`, `revision`, `method_version`, `band`),
	FOREIGN KEY (`trial`,`revision`,`method_version`) REFERENCES `results`(`trial`,`revision`,`method_version`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "result_bands_u" CHECK("result_bands"."cadr_u" > 0),
	CONSTRAINT "result_bands_band" CHECK("result_bands"."band" IN ('0.1-1.0', '0.5-3.0', '5-11', 'mass'))
);
--> statement-breakpoint
CREATE TABLE `results` (
	`trial` text NOT NULL,
	`revision` integer NOT NULL,
	`method_version` text NOT NULL,
	`room_revision` integer NOT NULL,
	`json` text NOT NULL,
	`sha256` text NOT NULL,
	`at` text NOT NULL,
	PRIMARY KEY(`trial`, `revision`, `method_version`),
	FOREIGN KEY (`trial`,`revision`) REFERENCES `trial_revisions`(`trial`,`revision`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `runs` (
	`trial` text NOT NULL,
	`revision` integer NOT NULL,
	`n` integer NOT NULL,
	`role` text NOT NULL,
	`counter` text NOT NULL,
	`series` text NOT NULL,
	`file` text,
	`from_trial` text,
	`from_revision` integer,
	`from_n` integer,
	`start_ms` real,
	`analysis_json` text NOT NULL,
	PRIMARY KEY(`trial`, `revision`, `n`),
	FOREIGN KEY (`series`) REFERENCES `series`(`sha256`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`file`) REFERENCES `files`(`sha256`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`trial`,`revision`) REFERENCES `trial_revisions`(`trial`,`revision`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`from_trial`,`from_revision`,`from_n`) REFERENCES `runs`(`trial`,`revision`,`n`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "runs_role" CHECK("runs"."role" IN ('background', 'natural', 'total', 'full_log')),
	CONSTRAINT "runs_link_whole" CHECK(("runs"."from_trial" IS NULL) = ("runs"."from_n" IS NULL))
);
--> statement-breakpoint
CREATE INDEX `runs_from` ON `runs` (`from_trial`,`from_revision`,`from_n`);--> statement-breakpoint
CREATE TABLE `series` (
	`sha256` text PRIMARY KEY NOT NULL,
	`rows` integer NOT NULL,
	`channels_json` text NOT NULL,
	`bytes` blob,
	`erased_at` text,
	`erased_reason` text,
	CONSTRAINT "series_whole_or_erased" CHECK(("series"."bytes" IS NULL) = ("series"."erased_reason" IS NOT NULL))
);
--> statement-breakpoint
CREATE TABLE `trial_revisions` (
	`trial` text NOT NULL,
	`revision` integer NOT NULL,
	`json` text NOT NULL,
	`sha256` text NOT NULL,
	`at` text NOT NULL,
	PRIMARY KEY(`trial`, `revision`),
	FOREIGN KEY (`trial`) REFERENCES `trials`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "trial_revisions_from_1" CHECK("trial_revisions"."revision" >= 1)
);
--> statement-breakpoint
CREATE TABLE `trials` (
	`id` text PRIMARY KEY NOT NULL,
	`submitter` text NOT NULL,
	`configuration` text NOT NULL,
	`setting` integer NOT NULL,
	`room` text NOT NULL,
	`interest` text NOT NULL,
	`aerosol` text NOT NULL,
	`invented` integer NOT NULL,
	`content_mac` blob NOT NULL,
	`idempotency_key` text,
	`created_at` text NOT NULL,
	FOREIGN KEY (`submitter`) REFERENCES `submitters`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`configuration`) REFERENCES `configurations`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`setting`) REFERENCES `settings`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`room`) REFERENCES `rooms`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "trials_interest" CHECK("trials"."interest" IN ('independent', 'lent_or_given', 'paid', 'maker_or_seller'))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `trials_content` ON `trials` (`submitter`,`content_mac`);--> statement-breakpoint
CREATE UNIQUE INDEX `trials_idempotency` ON `trials` (`submitter`,`idempotency_key`);--> statement-breakpoint
CREATE INDEX `trials_setting` ON `trials` (`setting`);--> statement-breakpoint
CREATE INDEX `trials_room` ON `trials` (`room`);