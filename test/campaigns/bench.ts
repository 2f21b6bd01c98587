import { spawnSync } from "node:child_process";
import { parseArgs } from "node:util";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { totalPriorFromReading } from "../../analysis/background-priors.ts";
import { fitDecay } from "../../analysis/decay-fit.ts";
import { median } from "../../analysis/median.ts";
import type { Readings } from "../../analysis/readings.ts";
import { cleanAirOf, fullLog, oneDecay } from "./bench-logs.ts";

/*
 * How long an analysis takes, best of five. Run it alone:
 *
 *   node test/campaigns/bench.ts [--python python3]
 */
const { values: options } = parseArgs({ options: { python: { type: "string", default: "python3" } } });
const ROUNDS = 5;
const DECAYS = 200;

const decays = Array.from({ length: DECAYS }, (_, i) => oneDecay(600, i + 1));
const priors = decays.map((readings) => totalPriorFromReading(cleanAirOf(readings), 0.4, readings).prior);
const fits = decays.map((readings, i) => () => fitDecay(readings, priors[i]!));
for (const fit of fits) fit(); // warm
const ours = best(() => median(fits.map(millisecondsOf)));
console.log(`one decay of 600 samples: median ${ours.toFixed(2)} ms of ${DECAYS} decays (at most 2)`);
const passes = fits.map((fit) => fit().passes).sort((a, b) => a - b);
const [middle, high] = [0.5, 0.99].map((share) => passes[Math.ceil(share * passes.length) - 1]);
console.log(`  whitening passes: median ${middle}, 99th percentile ${high} (at most 60)`);

const lines = [5000, 20_000, 80_000].map((rows) => {
  const trial = fullLog(rows);
  analyseTrial(trial);
  const { results, refusals } = analyseTrial(trial);
  if (results.length === 0) throw new Error(`the log of ${rows} rows is refused: ${refusals[0]?.message}`);
  return { rows, ms: best(() => millisecondsOf(() => analyseTrial(trial))), bands: results.length };
});
for (const { rows, ms, bands } of lines) {
  const perRow = (1000 * ms) / rows;
  console.log(
    `full log of ${rows} rows × 6 channels, ${bands} bands: ${ms.toFixed(0)} ms, ${perRow.toFixed(2)} µs a row`,
  );
}
const [, middling, longest] = lines;
const growth = longest!.ms / longest!.rows / (middling!.ms / middling!.rows);
console.log(
  `  (20 000 rows: at most 150 ms); a row of 80 000 takes ${growth.toFixed(2)} times as long as one of 20 000`,
);
console.log(againstCurveFit(decays, ours));

function best(measure: () => number): number {
  return Math.min(...Array.from({ length: ROUNDS }, measure));
}

function millisecondsOf(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** Plain least squares of B + A·e^(−kt) by scipy's curve_fit, on the same readings: its median per decay, best of five. */
function againstCurveFit(all: readonly Readings[], oursMs: number): string {
  const script = `
import json, sys, time
try:
    import numpy as np, scipy
    from scipy.optimize import curve_fit
except ImportError:
    print(json.dumps(None)); sys.exit()
decays = [(np.array(t) / 3600, np.array(y)) for t, y in json.load(sys.stdin)]
model = lambda t, b, a, k: b + a * np.exp(-k * t)
def fit(t, y):
    start = time.perf_counter()
    p, _ = curve_fit(model, t, y, p0=(y[-1], y[0] - y[-1], 3.0))
    return 1000 * (time.perf_counter() - start), p[2]
for t, y in decays: fit(t, y)
rounds = [float(np.median([fit(t, y)[0] for t, y in decays])) for _ in range(${ROUNDS})]
print(json.dumps({"ms": min(rounds), "k": [float(fit(t, y)[1]) for t, y in decays[:3]], "version": scipy.__version__}))
`;
  const input = JSON.stringify(all.map(({ tS, values }) => [[...tS], [...values]]));
  const { stdout, error } = spawnSync(options.python, ["-c", script], { input, encoding: "utf8", maxBuffer: 2 ** 26 });
  const answer = error ? null : (JSON.parse(stdout || "null") as { ms: number; version: string } | null);
  if (answer === null) return `scipy's curve_fit: SKIPPED, ${options.python} has no scipy here (Debian: python3-scipy)`;
  const ratio = (oursMs / answer.ms).toFixed(1);
  return `scipy ${answer.version} curve_fit, plain least squares: median ${answer.ms.toFixed(2)} ms; ours takes ${ratio} times as long`;
}
