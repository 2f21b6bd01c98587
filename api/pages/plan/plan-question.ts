import { coverageFactor95 } from "../../../analysis/estimate.ts";
import { TestPlanIn } from "../../wire/test-plan.ts";
import type { Asked } from "../form/asked.ts";
import { readSize, SIZE_FIELDS } from "../form/size-asked.ts";
import { VENTILATION_WORDS } from "../form/size-fields.tsx";
import type { Reader } from "../reader.ts";

/** Fields of the form about a test that is still to be made. */
export const PLAN_FIELDS = [
  ...SIZE_FIELDS,
  "ventilation",
  "natural",
  "cadr",
  "cadr_in",
  "wanted",
  "wanted_in",
  "interval",
  "principle",
  "white",
  "memory",
  "memory_time",
  "counts",
  "sample_flow",
  "max_concentration",
  "smoothing",
  "smoothing_time",
  "background",
] as const;

export const PRINCIPLE_WORDS = {
  optical_counter: "optical: counts particles by size",
  photometer: "photometer: tells mass in µg/m³",
  condensation_counter: "condensation: counts the finest too",
  other: "something else, or not known",
};

export const SMOOTHING_WORDS = { lag: "it lags behind", moving_mean: "it shows the mean of the last seconds" };

/** What its makers call a flow, in the address and in the form. */
export const FLOW_CHOICES = { "m3/h": "m³/h", cfm: "cfm" };

/** A question as it is sent to the API, and as the API reads it. */
export interface PlanAsked {
  readonly body: object;
  readonly sent: TestPlanIn;
}

/** What is taken where a field is left blank; the form shows it. */
export const PLAN_DEFAULTS = { interval: "10", wanted: "15", principle: "optical_counter" } as const;

export function isAsked(asked: Asked): boolean {
  return asked.holds(["length", "width", "height", "area", "volume", "cadr", "interval", "wanted"]);
}

/** The API's own question; null, with complaints beside the fields, where it is not whole. */
export function readPlanQuestion(asked: Asked, reader: Reader): PlanAsked | null {
  const size = readSize(asked);
  const flow = asked.choice("cadr_in", ["m3/h", "cfm"]) ?? (reader.flow === "m3/h" ? "m3/h" : "cfm");
  const cadr = asked.number("cadr", [0.01, 1e6]);
  if (asked.texts.cadr === undefined) {
    asked.complain("cadr", "A guess is needed: what a cleaner like it is listed with, or half its maker’s air flow.");
  }
  const interval = asked.number("interval", [0.1, 600], "s") ?? Number(PLAN_DEFAULTS.interval);
  const wanted = asked.number("wanted", [0.001, 1e6]) ?? Number(PLAN_DEFAULTS.wanted);
  const inPercent = (asked.choice("wanted_in", ["percent", "flow"]) ?? "percent") === "percent";
  const ventilation = asked.choice("ventilation", Object.keys(VENTILATION_WORDS));
  const natural = asked.number("natural", [0.001, 100], "per hour");
  const background = asked.number("background", [1e-6, 1e7], "per cm³");
  const counter = readCounter(asked);
  if (!size || cadr === undefined || !asked.isRight) return null;

  // What is wanted is a ± at 95 %; the API takes standard uncertainties.
  const wantedU = wanted / coverageFactor95(Infinity);
  const body = {
    volume: { value: size.value, unit: size.unit, u: size.u },
    cadr: { value: cadr, unit: flow },
    interval: { value: interval, unit: "s" },
    counter,
    wanted_u: { value: wantedU, unit: inPercent ? "%" : flow },
    ...(ventilation === undefined ? {} : { ventilation }),
    ...(natural === undefined ? {} : { natural: { value: natural, unit: "1/h" } }),
    ...(background === undefined ? {} : { background: { value: background, unit: "1/cm3" } }),
  };
  const parsed = TestPlanIn.safeParse(body);
  if (parsed.success) return { body, sent: parsed.data };
  for (const { path } of parsed.error.issues) complainAt(asked, path);
  return null;
}

/** A pointer into the API's question, said beside the field it came from. */
export function complainAt(asked: Asked, path: readonly PropertyKey[], words = "That is not possible."): void {
  const name = FIELD_OF[String(path[0])] ?? String(path.findLast((key) => typeof key === "string" && key !== "value"));
  asked.complain((PLAN_FIELDS as readonly string[]).includes(name) ? name : "interval", words);
}

const FIELD_OF: Readonly<Record<string, string>> = { volume: "volume", wanted_u: "wanted" };

function readCounter(asked: Asked) {
  const principle = asked.choice("principle", Object.keys(PRINCIPLE_WORDS)) ?? PLAN_DEFAULTS.principle;
  const share = (name: string) => quantity(asked.number(name, [0, 100], "%"), "%");
  const kind = asked.choice("smoothing", Object.keys(SMOOTHING_WORDS));
  const time = quantity(asked.number("smoothing_time", [0.1, 600], "s"), "s");
  if (kind !== undefined && !time) asked.complain("smoothing_time", "For how many seconds?");
  return {
    principle,
    ...put("smoothing", kind && time && { kind, time }),
    ...put("sample_flow", quantity(asked.number("sample_flow", [0.001, 1000], "L/min"), "L/min")),
    ...put("max_concentration", quantity(asked.number("max_concentration", [0.001, 1e9], "per cm³"), "1/cm3")),
    noise: {
      ...put("white", share("white")),
      ...put("memory", share("memory")),
      ...put("memory_time", quantity(asked.number("memory_time", [1, 900], "s"), "s")),
      ...put("counts", asked.number("counts", [0.001, 1e12])),
    },
  };
}

function quantity(value: number | undefined, unit: string) {
  return value === undefined ? undefined : { value, unit };
}

function put(name: string, value: unknown): object {
  return value === undefined ? {} : { [name]: value };
}
