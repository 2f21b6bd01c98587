/** What one version of the method changed, in readers' words. */
export interface MethodChange {
  readonly version: string;
  /** Its place, from 1: of two versions the one with the higher place is newer. */
  readonly ordinal: number;
  readonly date: string;
  readonly changed: readonly string[];
}

/**
 * Every version of the method there ever was, oldest first. A version is one as soon as any figure of any trial moves by
 * it: the golden results of test/fixtures/golden tell. Nothing here is ever reworded, for results quote the version.
 */
export const METHOD_CHANGES: readonly MethodChange[] = [
  {
    version: "1.0.0",
    ordinal: 1,
    date: "2026-11-25",
    changed: [
      "The first version: the decay rate with the cleaner less the natural one, times the volume of the room’s air.",
      "Background and noise are fitted with each decay; the interval takes in the fit, the volume, the natural loss and what the counter is known to do.",
    ],
  },
];

/** What a version changed; undefined for one this code does not know yet. */
export function findMethodChange(version: string): MethodChange | undefined {
  return METHOD_CHANGES.find((change) => change.version === version);
}

/** What came after a version up to another, oldest first; nothing where that is no newer, or this code does not know it. */
export function methodChangesBetween(from: string, to: string): readonly MethodChange[] {
  const place = (version: string) => METHOD_CHANGES.findIndex((change) => change.version === version);
  return METHOD_CHANGES.slice(place(from) + 1, place(to) + 1);
}
