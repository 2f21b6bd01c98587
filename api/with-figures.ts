import type { Connection } from "../db/database.ts";
import { findMemberOrigin, type MemberOrigin, type readEntries } from "../db/members.ts";
import type { trialFigures } from "./trial-figures.ts";

type Figures = Awaited<ReturnType<typeof trialFigures>>[number];
type State = Awaited<ReturnType<typeof readEntries>>[number];
type Read = Pick<State, "previous" | "seq" | "members"> &
  Partial<Pick<State, "adopted">> & {
    readonly entry: { readonly id: string; readonly band: string };
  };

/**
 * The entries that change where a trial has these figures instead of those it had.
 * @param known what its revision brings besides figures, where it is not stored yet
 */
export async function withFigures(
  connection: Connection,
  entries: readonly Read[],
  trial: string,
  revision: number,
  figures: readonly Figures[],
  known?: MemberOrigin,
) {
  const origin = known ?? (await findMemberOrigin(connection, trial, revision));
  return entries.flatMap((state) => {
    const others = state.members.filter((member) => member.trial !== trial);
    const own = figures
      .filter(({ band }) => band === state.entry.band)
      .map(({ cadrM3PerH: _, cadrU: __, cadrDof: ___, ...figure }) => ({ ...origin, ...figure }));
    const concerned = own.length > 0 || others.length < state.members.length;
    return concerned ? [{ state, members: [...others, ...own] }] : [];
  });
}
