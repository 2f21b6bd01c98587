import { interval95 } from "../analysis/estimate.ts";
import { welchSatterthwaite } from "../analysis/welch-satterthwaite.ts";
import type { Pooled } from "../db/entries.ts";
import { statedFlowM3PerH } from "./flow-as-sent.ts";
import { readStated } from "./stated-figures.ts";
import type { AgainstStated } from "./wire/against-stated.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";
import { writeCadr, writePooledNoise, writePower } from "./write-ranked-entry.ts";

/** Differences in dB and ratios; a stated power or flow is taken as known, a stated level with the u it is rated with. */
export function againstStated(
  pooled: Pooled | null,
  statedJson: string,
  parts: ConfigurationIn["parts"],
): AgainstStated {
  if (pooled === null) return { noise: null, power: null, flow: null };
  const { noise, power, flow } = readStated(statedJson).out;
  const flowM3PerH = flow?.value ?? statedFlowM3PerH(parts, undefined);
  const against = share(writeCadr(pooled, "m3/h"), flowM3PerH);
  return {
    noise: louder(writePooledNoise(pooled), noise),
    power: share(writePower(pooled), power?.value ?? null),
    flow: against && { ...against, stated: { value: flowM3PerH!, unit: "m3/h" } },
  };
}

type Quantity = NonNullable<ReturnType<typeof writeCadr>>;

function share(measured: Quantity | null, stated: number | null) {
  if (!measured || !stated) return null;
  const { value, u, low, high } = measured;
  return { value: value / stated, u: u / stated, low: low / stated, high: high / stated };
}

type Sound = ReturnType<typeof writePooledNoise>;

/** u² = u²(measured) + u²(stated), both independent (JCGM 100:2008 eq. 10); null where one of them is a bound. */
function louder(measured: Sound, stated: Sound): AgainstStated["noise"] {
  if (!measured || !stated || measured.value === null || stated.value === null) return null;
  const { u, dof } = welchSatterthwaite([measured, stated].map((one) => ({ u: one.u, dof: one.dof ?? Infinity })));
  const difference = { value: measured.value - stated.value, u, dof };
  return { value: difference.value, unit: "dB", u, ...interval95(difference) };
}
