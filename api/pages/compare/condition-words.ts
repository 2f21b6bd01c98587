import { AEROSOL_WORDS } from "../aerosol-words.ts";

/** A value of a condition of tests, in words; one that needs none is said as it is. */
export function conditionWords(value: string): string {
  return WORDS[value] ?? value.replaceAll("_", " ");
}

const WORDS: Readonly<Record<string, string>> = {
  ...AEROSOL_WORDS,
  natural: "windows or gaps",
  mechanical: "a ventilation system",
  optical_counter: "optical particle counter",
  condensation_counter: "condensation particle counter",
  unknown: "not known",
  small: "under 15 m³",
  ordinary: "15 to 80 m³",
  large: "over 80 m³",
};
