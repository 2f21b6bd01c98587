import type { Estimate } from "../../analysis/estimate.ts";
import { isUnlikelyVolume } from "../../analysis/findings/room.ts";
import { aboveFlowFinding, singlePass } from "../../analysis/single-pass.ts";
import type { Connection } from "../../db/database.ts";
import { listMembersOf } from "../../db/members.ts";
import { findResult, findTrial } from "../../db/trials.ts";
import { storedFlow } from "../stated-flow.ts";
import type { AnalysisOut } from "../wire/analysis.ts";
import { doubtedResults } from "./find-doubts.ts";
import type { DoubtCode } from "./rules.ts";

/** What the stated rules doubt about a stored trial if its room has another volume, and did not before. */
export async function doubtedVolume(connection: Connection, id: string, volumeM3: Estimate): Promise<DoubtCode[]> {
  const trial = await findTrial(connection, id);
  const { json } = await findResult(connection, id, trial.revision);
  const flow = await storedFlow(connection, trial.configuration, trial.setting);
  const above = (await listMembersOf(connection, id)).some(({ kDifferencePerH, kDifferenceU, kDifferenceDof }) => {
    const value = volumeM3.value * kDifferencePerH;
    const u = Math.hypot(volumeM3.value * kDifferenceU, volumeM3.u * kDifferencePerH);
    return aboveFlowFinding(singlePass({ value, u, dof: kDifferenceDof ?? Infinity }, flow)).length > 0;
  });
  const codes = new Set<DoubtCode>([
    ...(isUnlikelyVolume(volumeM3.value) ? ["volume-unlikely" as const] : []),
    ...(above ? ["cadr-above-flow" as const] : []),
  ]);
  return [...codes.difference(doubtedResults(JSON.parse(json) as AnalysisOut))];
}
