/** One unit: its UCUM code, base = (value − zero)·scale, and the spellings of the trade, written as `unitKey` leaves them. */
export interface UnitRow {
  readonly code: string;
  /** Size in base units: the nearest double to the exact factor. 1 ft = 0.3048 m and 1 in = 0.0254 m exactly (1959). */
  readonly scale: number;
  /** What the base unit's zero reads in this unit; not 0 for temperatures only. */
  readonly zero?: number;
  /** Frequency weighting that the spelling states, as in dB(A). */
  readonly weighting?: "A";
  readonly aliases: readonly string[];
}

const FT3_IN_M3 = 0.028316846592;

/**
 * Units known, by dimension; the first of each is the base unit, in which everything is computed and stored.
 * Codes after the Unified Code for Units of Measure (UCUM).
 */
export const UNIT_TABLE = {
  volume: [
    { code: "m3", scale: 1, aliases: ["cbm", "cubicmetre", "cubicmetres", "cubicmeter", "cubicmeters"] },
    { code: "L", scale: 0.001, aliases: ["l", "dm3", "litre", "litres", "liter", "liters"] },
    {
      code: "[cft_i]",
      scale: FT3_IN_M3,
      aliases: ["ft3", "cuft", "cu.ft", "cu.ft.", "cft", "cf", "cubicfeet", "cubicfoot"],
    },
  ],
  length: [
    { code: "m", scale: 1, aliases: ["metre", "metres", "meter", "meters"] },
    { code: "cm", scale: 0.01, aliases: [] },
    { code: "mm", scale: 0.001, aliases: [] },
    { code: "[ft_i]", scale: 0.3048, aliases: ["ft", "ft.", "foot", "feet", "'"] },
    { code: "[in_i]", scale: 0.0254, aliases: ["in", "in.", "inch", "inches", '"'] },
  ],
  area: [
    { code: "m2", scale: 1, aliases: ["sqm", "squaremetre", "squaremetres", "squaremeter", "squaremeters"] },
    { code: "cm2", scale: 1e-4, aliases: [] },
    { code: "[sft_i]", scale: 0.09290304, aliases: ["ft2", "[ft_i]2", "sqft", "sq.ft", "sq.ft.", "sf", "squarefeet"] },
    { code: "[sin_i]", scale: 0.00064516, aliases: ["in2", "[in_i]2", "sqin"] },
  ],
  flow: [
    { code: "m3/h", scale: 1, aliases: ["m3/hr", "m3.h-1", "m3h-1", "cmh", "cbm/h"] },
    { code: "L/s", scale: 3.6, aliases: ["l/s", "L/sec", "l/sec", "lps"] },
    { code: "L/min", scale: 0.06, aliases: ["l/min", "lpm"] },
    { code: "m3/s", scale: 3600, aliases: ["m3/sec", "m3.s-1", "m3s-1"] },
    { code: "m3/min", scale: 60, aliases: [] },
    { code: "[cft_i]/min", scale: 1.69901079552, aliases: ["cfm", "ft3/min", "cuft/min", "cf/min"] },
    { code: "cm3/s", scale: 0.0036, aliases: ["mL/s", "ml/s", "cc/s"] },
    { code: "mL/min", scale: 6e-5, aliases: ["ml/min", "cm3/min", "cc/min"] },
  ],
  time: [
    { code: "s", scale: 1, aliases: ["sec", "secs", "second", "seconds"] },
    { code: "min", scale: 60, aliases: ["mins", "minute", "minutes"] },
    { code: "h", scale: 3600, aliases: ["hr", "hrs", "hour", "hours"] },
    { code: "d", scale: 86_400, aliases: ["day", "days"] },
    { code: "wk", scale: 604_800, aliases: ["week", "weeks"] },
    { code: "mo", scale: 2_629_800, aliases: ["month", "months"] }, // UCUM: a twelfth of 365.25 d
    { code: "a", scale: 31_557_600, aliases: ["yr", "year", "years"] },
    { code: "ms", scale: 0.001, aliases: ["msec", "millisecond", "milliseconds"] },
    { code: "us", scale: 1e-6, aliases: ["microsecond", "microseconds"] },
    { code: "ns", scale: 1e-9, aliases: [] },
  ],
  "number concentration": [
    { code: "1/cm3", scale: 1, aliases: countsPer(["cm3", "cc", "ccm", "mL", "ml"], "cm-3") },
    { code: "1/L", scale: 0.001, aliases: countsPer(["L", "l", "litre", "liter", "dm3"], "L-1") },
    { code: "1/m3", scale: 1e-6, aliases: countsPer(["m3", "cbm"], "m-3") },
    { code: "1/[cft_i]", scale: 1e-6 / FT3_IN_M3, aliases: countsPer(["[cft_i]", "ft3", "cuft", "cft", "cf"], "ft-3") },
    {
      code: "1/dL",
      scale: 0.01,
      aliases: countsPer(["dL", "dl", "0.1L", "0.1l", "(0.1L)", "100mL", "100cm3"], "dL-1"),
    },
    {
      // Counts per hundredth of a cubic foot, as some counters show them.
      code: "100/[cft_i]",
      scale: 1e-4 / FT3_IN_M3,
      aliases: ["100/ft3", ...countsPer(["0.01ft3", "(0.01ft3)", "0.01cuft", "0.01cft", "0.01cf", "0.01[cft_i]"])],
    },
  ],
  "mass concentration": [
    { code: "ug/m3", scale: 1, aliases: ["ug.m-3", "ugm-3", "ug/cbm", "mcg/m3", "ng/L"] },
    { code: "mg/m3", scale: 1000, aliases: ["mg.m-3", "mgm-3", "mg/cbm", "ug/L", "ug/l"] },
    { code: "ng/m3", scale: 0.001, aliases: ["ng.m-3", "ngm-3", "ng/cbm"] },
  ],
  rate: [
    {
      code: "1/h",
      scale: 1,
      aliases: ["/h", "h-1", "1/hr", "/hr", "hr-1", "1/hour", "perhour", "ACH", "airchangesperhour"],
    },
    { code: "1/min", scale: 60, aliases: ["/min", "min-1", "1/minute", "perminute"] },
    { code: "1/s", scale: 3600, aliases: ["/s", "s-1", "1/sec", "/sec", "persecond"] },
  ],
  power: [
    { code: "W", scale: 1, aliases: ["watt", "watts"] },
    { code: "kW", scale: 1000, aliases: [] },
  ],
  temperature: [
    { code: "Cel", scale: 1, aliases: ["°C", "degC", "C", "celsius"] },
    { code: "[degF]", scale: 5 / 9, zero: 32, aliases: ["°F", "degF", "F", "fahrenheit"] },
    { code: "K", scale: 1, zero: 273.15, aliases: ["kelvin"] },
  ],
  humidity: [{ code: "%", scale: 1, aliases: ["%RH", "%rH", "percent", "RH%"] }],
  "sound level": [
    { code: "dB[SPL]", scale: 1, aliases: ["dB", "dB(SPL)", "dBSPL"] },
    { code: "dB[SPL]", scale: 1, weighting: "A", aliases: ["dB(A)", "dBA", "dB[A]", "dB_A"] },
  ],
  "particle size": [
    { code: "um", scale: 1, aliases: ["micron", "microns", "micrometre", "micrometer"] },
    { code: "nm", scale: 0.001, aliases: [] },
  ],
  fraction: [
    { code: "1", scale: 1, aliases: [] },
    { code: "%", scale: 0.01, aliases: ["percent"] },
  ],
} as const satisfies Record<string, readonly UnitRow[]>;

/** Spellings of "how many per": #/cm3, 1/cm3, /cm3, p/cm3, particles/cm3 …, and with an exponent: cm-3, #cm-3. */
function countsPer(volumes: readonly string[], inverse?: string): string[] {
  const counted = ["1", "#", "", "p", "pt", "pts", "particle", "particles", "count", "counts", "cnt", "no.", "n", "N"];
  const inverses = inverse === undefined ? [] : [inverse, `#${inverse}`, `#.${inverse}`, `1${inverse}`];
  return [...volumes.flatMap((volume) => counted.map((what) => `${what}/${volume}`)), ...inverses];
}
