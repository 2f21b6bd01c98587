import { analyseTrial } from "../../../../analysis/analyse-trial.ts";
import type { BandResult } from "../../../../analysis/analysis.ts";
import type { Channel, Run } from "../../../../analysis/trial.ts";
import { READINGS } from "./pinned-example.ts";

/** What the whole method says of the readings of the example, sent as counts from 0.3 to 1 µm. */
export function exampleAsAnalysed(): BandResult {
  const { results } = analyseTrial({
    room: { volumeM3: { value: 30, u: 0.3, dof: Infinity }, ventilation: "off", mixingFan: "on" },
    counters: [
      {
        id: "c1",
        principle: "other",
        model: null,
        sampleFlowCm3PerS: null,
        deadTimeS: null,
        maxConcentrationPerCm3: null,
        smoothing: null,
      },
    ],
    runs: [run(0, "natural", READINGS.off), run(1, "total", READINGS.on)],
  });
  return results[0]!;
}

function run(index: number, role: Run["role"], counts: readonly number[]): Run {
  const channel: Channel = {
    id: "counts",
    quantity: "raw",
    unit: "1",
    fromUm: 0.3,
    toUm: 1,
    cumulative: "none",
    ceiling: null,
    values: Float64Array.from(counts),
  };
  const tS = Float64Array.from(READINGS.tMinutes, (minutes) => 60 * minutes);
  return {
    index,
    role,
    counter: "c1",
    series: { tS, channels: [channel], cropFromS: null, cropToS: null },
    startMs: null,
    mixingFan: "on",
    ventilation: "off",
    marks: [],
    windows: [],
  };
}
