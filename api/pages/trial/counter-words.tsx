import type { TrialView } from "../../views.ts";
import { PRINCIPLE_WORDS } from "./record-words.ts";
import { Stated } from "./stated.tsx";

/** A counter: what it is, where it stood, and what limits it. */
export function CounterWords(counter: TrialView["counters"][number]) {
  const { id = "c1", principle = "other", model, sample_flow, dead_time, max_concentration, smoothing } = counter;
  return (
    <p class="counter">
      <bdi>{id}</bdi>: {model ? <bdi>{model}</bdi> : "model not stated"}, {PRINCIPLE_WORDS[principle]}
      {"position" in counter && <>; stood {counter.position ? <bdi>{counter.position}</bdi> : "(erased)"}</>}
      {sample_flow && (
        <>
          ; sample flow <Stated of={sample_flow} />
        </>
      )}
      {dead_time && (
        <>
          ; dead time <Stated of={dead_time} />
        </>
      )}
      {max_concentration && (
        <>
          ; counts up to <Stated of={max_concentration} />
        </>
      )}
      {smoothing ? (
        <>
          ; smoothing: {smoothing.kind === "lag" ? "lags by" : "moving mean of"} <Stated of={smoothing.time} />
        </>
      ) : (
        "; smoothing not stated"
      )}
    </p>
  );
}
