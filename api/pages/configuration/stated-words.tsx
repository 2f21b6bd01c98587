import { parseUnit } from "../../../analysis/units.ts";
import type { AgainstStated } from "../../wire/against-stated.ts";
import type { EntryOut } from "../../wire/entry.ts";
import { figures, unitWords } from "../figures.ts";
import { Quantity, Sound } from "../quantity.tsx";
import type { FlowUnit } from "../reader.ts";

/** How the noise that was measured stands against what is stated. */
export function NoiseAgainst({
  stated,
  against,
}: {
  stated: EntryOut["stated"]["noise"];
  against: AgainstStated["noise"];
}) {
  if (stated === null) return <small>no level is stated</small>;
  const level = (
    <>
      (<Sound of={stated} />, brought to 1 m)
    </>
  );
  if (against === null) return <small>stated: {level}</small>;
  const { value, low, high } = against;
  const size = {
    value: Math.abs(value),
    low: Math.abs(value) - (high - low) / 2,
    high: Math.abs(value) + (high - low) / 2,
  };
  return (
    <small>
      measured <Quantity of={{ ...size, unit: "dB" }} /> {value < 0 ? "under" : "over"} what is stated {level}
      {low <= 0 && high >= 0 && ": the interval holds 0, so no difference is shown"}
    </small>
  );
}

/** How the power that was measured stands against what is stated. */
export function PowerAgainst({
  stated,
  against,
}: {
  stated: EntryOut["stated"]["power"];
  against: AgainstStated["power"];
}) {
  if (stated === null) return <small>no power is stated</small>;
  if (against === null) return <small>stated: {plainFigure(stated.value)} W</small>;
  return (
    <small>
      measured <Quantity of={{ ...against, unit: "times" }} /> what is stated ({plainFigure(stated.value)} W)
    </small>
  );
}

/** A flow that somebody stated without an uncertainty: as sent in its own unit, three digits where it is turned into another. */
export function statedFlow(m3PerH: number, flow: FlowUnit): string {
  const value = parseUnit(flow).fromBase(m3PerH);
  const four = Number(value.toPrecision(4));
  const isAsSent = Math.abs(value - four) < 1e-9 * Math.abs(value);
  return `${plainFigure(isAsSent ? four : Number(value.toPrecision(3)))} ${unitWords(flow)}`;
}

/** A figure that somebody stated without an uncertainty: four digits of it. */
export function plainFigure(value: number): string {
  const size = Math.abs(value);
  return size >= 1000 || size === 0 ? figures(value, 0).value : String(Number(value.toPrecision(4))).replace("-", "−");
}
