import type { Band, BandNatural, BandResult, DecayWindow, FittedDecay, Refusal, TotalDecay } from "./analysis.ts";
import { assumedNaturalLoss } from "./assumed-natural-loss.ts";
import type { BandRun } from "./band-run.ts";
import { consensus } from "./consensus.ts";
import { type BandDecay, fitCounterDecays } from "./counter-decays.ts";
import type { Estimate } from "./estimate.ts";
import type { CounterEvidence } from "./findings/evidence.ts";
import { findingsOf } from "./findings.ts";
import { checkedRate } from "./interval-check.ts";
import { matchNatural } from "./natural-match.ts";
import { sharedBackground } from "./shared-background.ts";
import { aboveFlowFinding, singlePass } from "./single-pass.ts";
import type { Counter, Trial } from "./trial.ts";
import { welchSatterthwaite } from "./welch-satterthwaite.ts";

/** One band over all counters that see it: a result, or the reasons why there is none. */
export function analyseBand(
  trial: Trial,
  band: Band,
  seenBy: readonly { counter: Counter; runs: readonly BandRun[] }[],
): { result: BandResult | null; natural: BandNatural | null; refusals: Refusal[] } {
  const refusals: Refusal[] = [];
  const naturals: BandDecay[] = [];
  const evidence: CounterEvidence[] = [];
  for (const { counter, runs } of seenBy) {
    const decays = fitCounterDecays(counter, band, runs, trial.room);
    refusals.push(...decays.refusals);
    naturals.push(...decays.naturals);
    if (decays.totals.length === 0) continue;
    const total = consensus(decays.totals.map(({ fit }) => fit.kPerH)).estimate;
    const match = matchNatural(decays.totals, decays.naturals);
    const natural = match
      ? consensus(match.naturals.map(({ fit }) => fit.kPerH)).estimate
      : assumedNaturalLoss(band, runs[0]!.readings.quantity, trial.room);
    const covariance = sharedBackground(decays.totals, match?.naturals ?? [], total, natural);
    evidence.push({ counter, totals: decays.totals, total, match, natural, covariance });
  }
  const used = evidence.some(({ match }) => match) ? evidence.filter(({ match }) => match) : evidence;
  for (const { counter } of evidence.filter((e) => !used.includes(e))) {
    const message = `counter ${counter.id} has no natural run of its own, and another has: their decays cannot be matched`;
    refusals.push({ band: band.name, run: null, code: "counters-disagree", message });
  }
  if (used.length === 0) {
    if (refusals.length === 0) {
      const message = "no decay with the cleaner on was found for this band";
      refusals.push({ band: band.name, run: null, code: "no-total-decay", message });
    }
    return { result: null, natural: naturalAlone(band, naturals), refusals };
  }
  return { result: combine(trial, band, used), natural: null, refusals };
}

/** What was seen of a band's natural loss where nothing more can be told. */
function naturalAlone(band: Band, naturals: readonly BandDecay[]): BandNatural | null {
  if (naturals.length === 0) return null;
  const { estimate } = consensus(naturals.map(({ fit }) => fit.kPerH));
  return { band, kPerH: estimate, decays: naturals.map(({ reported }) => reported) };
}

function combine(trial: Trial, band: Band, used: readonly CounterEvidence[]): BandResult {
  // Assumed losses are one assumption, not one a counter: they neither average out nor tell counters apart.
  const assumed = used.every(({ match }) => match === null);
  const perCounter = used.map(({ total, natural, covariance }): Estimate => {
    const { u, dof } = assumed ? total : welchSatterthwaite([total, natural], covariance);
    return { value: total.value - natural.value, u, dof };
  });
  const { weights, between } = consensus(perCounter);
  const totalPerH = weighted(
    used.map(({ total }) => total),
    weights,
    false,
  );
  const naturalPerH = weighted(
    used.map(({ natural }) => natural),
    weights,
    assumed,
  );
  const found = findingsOf({ trial, band, counters: used, weights, totalPerH, naturalPerH, between });
  const others = [
    ...(used.length > 1 ? [{ source: "counters", u: between.u, dof: between.dof }] : []),
    ...found.flatMap(({ finding, uPerH, dof }) => (uPerH > 0 ? [{ source: finding.code, u: uPerH, dof }] : [])),
  ];
  // An assumed loss is the same on all counters: it meets each total's error with weight 1.
  const covariance = used.reduce((sum, e, i) => sum + weights[i]! ** (assumed ? 1 : 2) * e.covariance, 0);
  const rates = { totalPerH, naturalPerH, covariance, others };
  const seed = trial.seed && `${trial.seed} ${band.name}`;
  const { rate, monteCarlo, finding } = checkedRate(trial.room.volumeM3, rates, seed);
  const ratio = singlePass(rate.cadrM3PerH, trial.statedFlowM3PerH);
  const naturals = used.flatMap(({ match }) => match?.naturals ?? []);
  const sources = used.map(({ match }) => match?.source ?? "assumed");
  return {
    band,
    ...rate,
    singlePass: ratio,
    monteCarlo,
    total: totalOf(
      used.flatMap(({ totals }) => totals),
      totalPerH,
    ),
    natural: {
      source: sources.find((source) => source !== "measured") ?? "measured",
      kPerH: naturalPerH,
      decays: naturals.map(({ reported }) => reported),
    },
    paired: used.every(({ match }) => match?.paired ?? false),
    findings: [...found.map((raised) => raised.finding), ...(finding ? [finding] : []), ...aboveFlowFinding(ratio)],
  };
}

/** Σ wᵢxᵢ; u in quadrature, or added up where all share one error. */
function weighted(estimates: readonly Estimate[], weights: readonly number[], shared: boolean): Estimate {
  const value = estimates.reduce((sum, estimate, i) => sum + weights[i]! * estimate.value, 0);
  const parts = estimates.map(({ u, dof }, i) => ({ u: weights[i]! * u, dof }));
  if (shared)
    return { value, u: parts.reduce((sum, { u }) => sum + u, 0), dof: Math.min(...parts.map(({ dof }) => dof)) };
  return { value, ...welchSatterthwaite(parts) };
}

/** The decay with the most readings stands for the total where one window, background and line are shown. */
function totalOf(decays: readonly BandDecay[], kPerH: Estimate): TotalDecay {
  const reported: readonly FittedDecay[] = decays.map((decay) => decay.reported);
  const shown = reported.reduce((a, b) => (b.window.n > a.window.n ? b : a));
  const window: DecayWindow = shown.window;
  return { kPerH, window, background: shown.background, logLinear: shown.logLinear, decays: reported };
}
