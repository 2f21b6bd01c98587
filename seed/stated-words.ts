/** Noise and power as a tester states them. */
export function stated(it: { levelDb: number; backgroundDb: number; meter: "class_2" | "phone"; powerW?: number }) {
  const dbA = (value: number) => ({ value, unit: "dB(A)" });
  return {
    noise: [
      {
        quantity: "L_pA",
        level: dbA(it.levelDb),
        background: dbA(it.backgroundDb),
        distance: { value: 1, unit: "m" },
        meter: it.meter,
      },
    ],
    ...(it.powerW === undefined ? {} : { power: { value: it.powerW, unit: "W", u: 1 } }),
  };
}

/** Said wherever something was burnt. */
export const SMOKE_CAUTION =
  "Anything that smoulders is a fire and inhalation hazard: it stood on a stone tray away from the filters, was attended all the time, nobody with asthma was in the house, the smoke alarm stayed on and the way out clear.";

/** Said where a nebuliser was used. */
export const SALT_NOTE =
  "Salt water from a nebuliser, kept well away from the mains; the fan of the room ran before the first reading.";
