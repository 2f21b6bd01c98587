import { countedOf } from "../../db/counted-result.ts";
import type { History } from "../../db/derived.ts";
import { latecomerReason } from "../../db/insert-reanalysis.ts";

type Figures = History["figures"][number];
type Event = History["events"][number];

/** Which figures of each trial count, as method versions are adopted, results come late and trials are amended. */
export function replayResults({ events, results, figures, adoptions }: History) {
  const resultsOf = Map.groupBy(results, ({ trial, revision }) => `${trial}/${revision}`);
  const figuresOf = Map.groupBy(figures, nameOf);
  const revisions = new Map<string, number>();
  // What a version adds before it is adopted counts by no rule; what it adds afterwards counts from its own event on.
  const late = new Set(
    events.flatMap(({ kind, subject, reason }) =>
      kind === "method-applied" && reason !== null ? [`${subject}: ${reason}`] : [],
    ),
  );
  let adopted = adoptions[0]!;

  return {
    adopted: () => adopted,
    adopt({ seq }: Event): void {
      adopted = adoptions.find(({ event }) => event === seq)!;
    },
    arrive({ subject, reason }: Event): void {
      late.delete(`${subject}: ${reason}`);
    },
    amend(trial: string): void {
      revisions.set(trial, (revisions.get(trial) ?? 1) + 1);
    },
    /** The figures of a trial that count now, one a band. */
    counted(trial: string): readonly Figures[] {
      const known = (resultsOf.get(`${trial}/${revisions.get(trial) ?? 1}`) ?? []).filter(
        ({ revision, methodVersion }) => !late.has(`${trial}: ${latecomerReason(revision, methodVersion)}`),
      );
      const result = countedOf(known, adopted.ordinal);
      return (result && figuresOf.get(nameOf(result))) ?? [];
    },
  };
}

function nameOf({ trial, revision, methodVersion }: Pick<Figures, "trial" | "revision" | "methodVersion">): string {
  return `${trial}/${revision}/${methodVersion}`;
}
