import { AnalysisError } from "../analysis/analysis-error.ts";
import { coverageFactor95, interval95 } from "../analysis/estimate.ts";
import type { PlanQuestion } from "../analysis/planned-trial.ts";
import { givenVolume } from "../analysis/room-volume.ts";
import { planTest, type TestPlan } from "../analysis/test-plan.ts";
import { parseUnit } from "../analysis/units.ts";
import { digitsApart } from "./digits-apart.ts";
import { invalid } from "./problem.ts";
import type { TestPlanIn, TestPlanOut } from "./wire/test-plan.ts";

/** Plans the test that is asked for; its advice speaks of flows in m³/h or cfm. @throws RequestError "invalid" where no such test can be analysed */
export function writeTestPlan(sent: TestPlanIn, adviceIn: "m3/h" | "[cft_i]/min" = "m3/h"): TestPlanOut {
  const question = toQuestion(sent);
  const plan = planOrComplain(question);
  const { expected } = plan;
  const { value, u } = question.volumeM3;
  const expandedU = coverageFactor95(expected.cadrM3PerH.dof) * expected.cadrM3PerH.u;
  return {
    minutes: plan.minutes,
    natural_minutes: plan.naturalMinutes,
    start_over_background: Math.round(plan.startOverBackground),
    u: expected.cadrM3PerH.u,
    unit: "m3/h",
    relative_u: expected.cadrM3PerH.u / expected.cadrM3PerH.value,
    expanded_u: expandedU,
    relative_expanded_u: expandedU / expected.cadrM3PerH.value,
    budget: expected.budget.map((part) => ({ ...part })),
    wanted_u: question.wantedUM3PerH,
    wanted_expanded_u: coverageFactor95(Infinity) * question.wantedUM3PerH,
    reachable: plan.reachable,
    dominant: plan.dominant,
    trials: plan.trials,
    volume_u_needed: plan.volumeUNeededM3 === null ? null : writeVolumeU(plan.volumeUNeededM3),
    natural: { value: plan.naturalPerH, unit: "1/h", assumed: question.naturalPerH === null },
    volume: {
      value,
      unit: "m3",
      u,
      ...interval95(question.volumeM3),
      basis: sent.volume.u === null ? "estimate" : "stated",
    },
    advice: advise(question, plan, adviceIn),
    cautions: CAUTIONS,
  };
}

function writeVolumeU(value: number): NonNullable<TestPlanOut["volume_u_needed"]> {
  return { value, unit: "m3", expanded_u: coverageFactor95(Infinity) * value };
}

function toQuestion(sent: TestPlanIn): PlanQuestion {
  const { cadr, interval, wanted_u: wanted, natural, ventilation, background } = sent;
  const counter = typeof sent.counter === "string" ? { principle: sent.counter, noise: {} } : sent.counter;
  const { principle, noise, sample_flow: flow, max_concentration: most, smoothing } = counter;
  const weighs = (counter.quantity ?? (principle === "photometer" ? "mass" : "number")) === "mass";
  // m³/h · s · 1/cm³: 10⁶ cm³ and 3600 s
  const counted = flow && background ? ((flow.value * 1e6) / 3600) * interval.value * background.value : null;
  return {
    volumeM3: givenVolume(sent.volume).volumeM3,
    cadrM3PerH: cadr.value,
    wantedUM3PerH: "relative" in wanted ? wanted.relative * cadr.value : wanted.m3PerH,
    intervalS: interval.value,
    counter: {
      principle,
      weighs,
      smoothing: smoothing ? { kind: smoothing.kind, timeS: smoothing.time.value } : null,
      maxConcentrationPerCm3: most?.value ?? null,
      noise: {
        white: noise.white?.value ?? null,
        memory: noise.memory?.value ?? null,
        memoryTimeS: noise.memory_time?.value ?? null,
        countsInCleanAir: noise.counts ?? (weighs ? null : counted),
      },
    },
    ventilation,
    naturalPerH: natural?.value ?? null,
    cleanAirPerCm3: background?.value ?? null,
  };
}

/** Where even the longest and smokiest test would be refused when it is analysed, the plan is refused and says why. */
function planOrComplain(question: PlanQuestion): TestPlan {
  try {
    return planTest(question);
  } catch (error) {
    if (!(error instanceof AnalysisError)) throw error;
    if (error.code === "less-than-one-halving") {
      throw invalid(["cadr"], "In this room the concentration would not even halve within four hours.");
    }
    throw invalid(
      ["interval"],
      "The decay is over before nine readings are taken: log more often, or test in a larger room.",
    );
  }
}

function advise(question: PlanQuestion, plan: TestPlan, flow: string): string[] {
  const { minutes, naturalMinutes, startOverBackground, dominant, reachable, trials, volumeUNeededM3 } = plan;
  const expandedU = coverageFactor95(plan.expected.cadrM3PerH.dof) * plan.expected.cadrM3PerH.u;
  const wantedU = coverageFactor95(Infinity) * question.wantedUM3PerH;
  const unit = parseUnit(flow, "flow");
  const digits = reachable ? 2 : digitsApart(expandedU, wantedU);
  const [expected, wanted] = [expandedU, wantedU].map(
    (m3PerH) => `± ${Number(unit.fromBase(m3PerH).toPrecision(digits))} ${flow === "m3/h" ? "m³/h" : "cfm"}`,
  );
  const advice = [
    `Log some minutes of clean air, then a decay of ${naturalMinutes} min with the cleaner off and one of ${minutes} min with it on, each begun with about ${Math.round(startOverBackground)} times the clean air's level, on one day, with fan and ventilation as they are.`,
  ];
  if (reachable) {
    advice.push(`Expect ${expected} at 95 %; ${PARTS[dominant] ?? dominant} is the largest part of it.`);
  } else {
    const beyond = `${wanted} at 95 % is out of reach`;
    const volumeU = plan.expected.budget.find(({ source }) => source === "volume")!.u;
    if (trials !== null) {
      advice.push(`${beyond} of one trial: expect ${expected}. ${trials} such trials in this room would reach it.`);
    } else if (volumeU >= question.wantedUM3PerH) {
      advice.push(`${beyond}: the volume's own makes as much already, however long you log. Expect ${expected}.`);
    } else {
      advice.push(`${beyond} of any number of trials worth making with this counter and room. Expect ${expected}.`);
    }
    advice.push(`± ${Math.ceil((100 * expandedU) / question.cadrM3PerH)} % of the rate would be in reach of one test.`);
  }
  if (volumeUNeededM3 !== null && !reachable) {
    const percent = Number(
      ((100 * coverageFactor95(Infinity) * volumeUNeededM3) / question.volumeM3.value).toPrecision(2),
    );
    advice.push(`With the volume known to ± ${percent} % at 95 % these lengths would do: tape its sides with care.`);
  }
  if (plan.naturalPerH + question.cadrM3PerH / question.volumeM3.value > 30) {
    advice.push(
      "The cleaner is strong for this room: mixing and the counter limit what is measured. Use a larger one.",
    );
  }
  return advice;
}

const PARTS: Readonly<Record<string, string>> = {
  volume: "the room's volume",
  total_fit: "the decay with the cleaner on",
  natural_fit: "the decay with the cleaner off",
};

const CAUTIONS = [
  "Anything that smoulders or is heated to make smoke can start a fire and should not be breathed: stay with it, keep it away from filters and curtains, leave smoke alarms in place and the way out free.",
  "Leave neither anything lit nor a fan with filters taped to it unattended, not while the counter logs either: watch through a window or by a camera, the plug within reach.",
  "Nobody with asthma or another lung complaint should be in the room; in a closed room smouldering also makes carbon monoxide.",
  "Mist of salt water is milder; keep the wet nebuliser away from mains power.",
  "Air the room before anybody stays in it again. Local rules come first.",
];
