import { type FormReader, filled } from "./form-reader.ts";

const PRINCIPLES = ["optical_counter", "photometer", "condensation_counter", "other"] as const;

/** The one counter of a trial; a counter that counted all its logs. */
export function counterOfForm(form: FormReader): Record<string, unknown> {
  return {
    id: "c1",
    ...filled({
      principle: form.choice("counter.principle", PRINCIPLES),
      model: form.text("counter.model"),
      position: form.text("counter.position"),
      sample_flow: form.quantity("counter.sample_flow", "L/min"),
      dead_time: form.quantity("counter.dead_time", "us"),
      max_concentration: form.quantity("counter.max_concentration", "1/cm3"),
      smoothing: smoothingOf(form),
    }),
  };
}

/** A smoothing time of 0 s says that there is none; nothing at all says that it is not known. */
function smoothingOf(form: FormReader) {
  const kind = form.choice("counter.smoothing", ["none", "lag", "moving_mean"]);
  const time = form.quantity("counter.smoothing_time", "s");
  if (kind === "none") return { kind: "lag", time: { value: 0, unit: "s" } };
  if (kind === undefined) {
    if (time) form.complain("counter.smoothing", "Say what kind of smoothing this time belongs to.");
    return undefined;
  }
  if (!time) form.complain("counter.smoothing_time", "How long the smoothing is, in seconds, is missing.");
  return time && { kind, time };
}
