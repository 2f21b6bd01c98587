CREATE TABLE `fingerprints` (
	`hash` integer NOT NULL,
	`trial` text NOT NULL,
	`revision` integer NOT NULL,
	`n` integer NOT NULL,
	PRIMARY KEY(`hash`, `trial`, `revision`, `n`),
	FOREIGN KEY (`trial`,`revision`,`n`) REFERENCES `runs`(`trial`,`revision`,`n`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
-- Pools are derived: `npm run rebuild` counts them.
ALTER TABLE `pooled` ADD `serious` integer NOT NULL DEFAULT 0;
--> statement-breakpoint
ALTER TABLE `result_bands` ADD `serious` integer NOT NULL DEFAULT 0;
--> statement-breakpoint
-- Results stored before have their findings in their own JSON alone.
DROP TRIGGER result_bands_no_update;
--> statement-breakpoint
UPDATE result_bands SET serious = EXISTS (SELECT 1 FROM results s, json_each(s.json, '$.results') b, json_each(b.value, '$.findings') f
  WHERE s.trial = result_bands.trial AND s.revision = result_bands.revision AND s.method_version = result_bands.method_version
    AND b.value ->> '$.band.kind' = 'standard' AND b.value ->> '$.band.name' = result_bands.band
    AND f.value ->> '$.severity' = 'serious');
--> statement-breakpoint
CREATE TRIGGER result_bands_no_update BEFORE UPDATE ON result_bands
BEGIN SELECT RAISE(ABORT, 'result_bands: insert-only, pools were made from it'); END;
--> statement-breakpoint
CREATE INDEX `runs_series` ON `runs` (`series`);
--> statement-breakpoint
CREATE TRIGGER fingerprints_no_update BEFORE UPDATE ON fingerprints
BEGIN SELECT RAISE(ABORT, 'fingerprints: insert-only, made of readings that stay'); END;
--> statement-breakpoint
CREATE TRIGGER fingerprints_no_delete BEFORE DELETE ON fingerprints
BEGIN SELECT RAISE(ABORT, 'fingerprints: insert-only, made of readings that stay'); END;
