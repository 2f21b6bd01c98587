/** Tables in the order that their references allow, with what a row of each is. What is derived stands in none of them. */
export const DUMPED = {
  words: "A personal word (note, label, handle, question, answer) and the salt of its digest; null where it was erased",
  submitters: "Who sends trials; the handle is a word",
  keys: "A submitter's key: its prefix, and an HMAC that opens nothing without the registry's secret. Not in the open part",
  key_revocations: "A key that holds no more. Not in the open part",
  rooms: "A room of one submitter; its label is a word",
  room_revisions: "A room's air volume; a correction is another revision",
  configurations: "The parts that move or clean air and their arrangement",
  configuration_revisions: "The words of a configuration",
  merges: "Two configurations that an operator found to be one",
  settings: "A speed or mode of a configuration",
  setting_moves: "Where a merge moved the trials of a setting",
  files: "The exact bytes of an upload, in base64; null where they were erased",
  series:
    "A parsed log: columns of little-endian float64 in base64, time first in seconds, NaN where missing; null where erased",
  trials: "A trial as first sent",
  trial_revisions: "The hashed record of a trial (canonical JSON, RFC 8785); an amendment is another revision",
  runs: "A run of a trial's revision and where its readings are",
  fingerprints: "Windows of a run's scatter, by which copied readings are found",
  results: "What one method version says of one trial's revision (canonical JSON)",
  result_bands: "The figures of a result that pools are made of",
  trial_measures: "Noise and power that a trial read",
  events: "The log of everything that happened",
  method_adoptions: "Which method version readers saw from when on",
  spreads: "How much laboratories differ, from when on",
  entries: "Configuration × setting × band: what is ranked",
  questions: "A reader's question to a trial; its text is a word",
  answers: "An answer; its text is a word",
} as const;

export type DumpedTable = keyof typeof DUMPED;

/** Kept for the registry's own return, and given to nobody. */
export const KEPT_BACK: readonly DumpedTable[] = ["keys", "key_revocations"];

/** Derived tables that are written for those who read a dump; a restore makes them anew and compares. */
export const DERIVED = {
  trial_states: "Whether a trial counts. Derived",
  pooled: "Each pooled figure an entry ever had, by the event that made it; the newest is current. Derived",
} as const;
export type DerivedTable = keyof typeof DERIVED;

/** What names their rows. */
export const DERIVED_NAMES: Record<DerivedTable, readonly string[]> = {
  trial_states: ["trial"],
  pooled: ["entry", "basis", "seq"],
};
