import { assumedNaturalLoss } from "../analysis/assumed-natural-loss.ts";
import type { Estimate } from "../analysis/estimate.ts";
import { STANDARD_BANDS } from "../analysis/size-bands.ts";
import type { OwnRoom, Target } from "../analysis/sizing/target.ts";
import { invalid } from "./problem.ts";
import type { SizingQuery } from "./wire/sizing.ts";

export interface SizingQuestion {
  readonly target: Target;
  readonly room: OwnRoom;
  readonly naturalAssumed: boolean;
}

/** The room and the target a query asks about. @throws RequestError "invalid" unless it names one of each */
export function readSizingQuestion(query: SizingQuery): SizingQuestion {
  const volumeM3 = { value: readVolume(query), u: query.volume_u ?? 0, dof: Infinity };
  const { natural } = query;
  const naturalPerH = natural === undefined ? assumed(query, volumeM3) : { value: natural, u: 0, dof: Infinity };
  return { target: readTarget(query), room: { volumeM3, naturalPerH }, naturalAssumed: natural === undefined };
}

function readVolume({ volume, area, height }: SizingQuery): number {
  if (volume !== undefined && area === undefined && height === undefined) return volume;
  if (volume === undefined && area !== undefined && height !== undefined) return area * height;
  throw invalid(["volume"], "Give either the volume, or area and height.");
}

function readTarget({ air_changes, minutes, reduction, ratio }: SizingQuery): Target {
  const asked: Target[] = [
    ...(air_changes === undefined ? [] : [{ kind: "air-changes", perHour: air_changes } as const]),
    ...(minutes === undefined || reduction === undefined
      ? []
      : [{ kind: "clearance", removed: reduction, minutes } as const]),
    ...(ratio === undefined ? [] : [{ kind: "ratio", ratio } as const]),
  ];
  const half = (minutes === undefined) !== (reduction === undefined);
  if (asked.length === 1 && !half) return asked[0]!;
  throw invalid(["air_changes"], "Ask for one target: air_changes, or minutes with reduction, or ratio.");
}

function assumed(query: SizingQuery, volumeM3: Estimate): Estimate {
  const sizes = STANDARD_BANDS.find(({ name }) => name === query.band);
  const band = {
    kind: "standard",
    name: query.band,
    fromUm: sizes?.fromUm ?? null,
    toUm: sizes?.toUm ?? null,
    coverage: null,
  } as const;
  const room = { volumeM3, ventilation: query.ventilation, mixingFan: "unknown" } as const;
  return assumedNaturalLoss(band, query.band === "mass" ? "mass" : "number", room);
}
