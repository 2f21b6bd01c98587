import { figures, unitWords } from "../figures.ts";

/** `170 to 320 m³/h`: two ends, with as many digits as half the distance between them deserves. */
export function Between({ of: { low, high, unit } }: { of: { low: number; high: number; unit: string } }) {
  const shown = (end: number) => figures(end, (high - low) / 2).value;
  return <span class="q">{`${shown(low)} to ${shown(high)} ${unitWords(unit)}`}</span>;
}
