import type { Child } from "hono/jsx";
import type { EXCLUDED, LeaderboardOut } from "../../wire/leaderboard.ts";
import type { AEROSOL_WORDS } from "../aerosol-words.ts";
import { UNPAIRED_WORDS } from "../basis-words.ts";
import { pageAddress } from "./list-address.ts";
import { MixedEntries } from "./mixed-entries.tsx";

type Reason = (typeof EXCLUDED)[number];
type Aerosol = keyof typeof AEROSOL_WORDS;
type Texts = Readonly<Record<string, string>>;

/** How many are listed, and how many are not: `why` leads to the reasons where they stand elsewhere. */
export function ListCount({ board, why, children }: { board: LeaderboardOut; why: boolean; children: Child }) {
  const leftOut = Object.values(board.excluded).reduce((sum, count) => sum + count, 0);
  return (
    <p class="list-count">
      {counted(board.shown, "result", "results")} listed
      {board.turned_down > 0 && `; ${counted(board.turned_down, "does", "do")} not fit what was asked`}
      {why && leftOut > 0 && (
        <>
          {`; ${leftOut} left out: `}
          <a href="#left-out">why</a>
        </>
      )}
      . {children}
    </p>
  );
}

/** Who could not be told, each with the reason and the way to see them. */
export function LeftOut({ board, texts }: { board: LeaderboardOut; texts: Texts }) {
  const reasons = Object.entries(board.excluded) as [Reason, number][];
  if (reasons.length === 0) return null;
  return (
    <div class="list-says" id="left-out">
      {reasons.map(([reason, count]) => (
        <>
          <p>
            {count} left out: {WORDS[reason](count === 1, board)}.{" "}
            <a href={pageAddress(texts, changeFor(reason, board))}>{LINKS[reason](board)}</a>.
          </p>
          {reason === "mixed_aerosol" && <MixedEntries board={board} aerosol={texts.aerosol as Aerosol} />}
        </>
      ))}
    </div>
  );
}

const WORDS: Record<Reason, (one: boolean, board: LeaderboardOut) => string> = {
  single_unpaired: (one) => `${one ? "it rests" : "each rests"} on a single unpaired test (${UNPAIRED_WORDS})`,
  mixed_aerosol: (one) =>
    `${one ? "it was" : "they were"} tested with other aerosols too, and the list ranks all tests of a cleaner together`,
  no_noise: (one) => `no noise at 1 m was measured of ${one ? "it" : "them"}`,
  noise_bound: (one) =>
    `only a level that ${one ? "its" : "their"} noise stays under is known, which does not tell enough here`,
  no_power: (one) => `no power above 0 W was measured of ${one ? "it" : "them"}`,
  no_cost: (one) => `no price of the whole is stated for ${one ? "it" : "them"}`,
  other_currency: (one, { currency }) =>
    `${one ? "its price is" : "their prices are"} not in ${currency ?? "that currency"}, and money is not converted`,
};

const NOISE_ORDERS = ["noise", "noise_for_300"];
const ofSort = (lost: boolean) => (lost ? "Show all in order of clean air" : "Show without this limit");

const LINKS: Record<Reason, (board: LeaderboardOut) => string> = {
  single_unpaired: ({ excluded }) => (excluded.single_unpaired === 1 ? "Show it too" : "Show them too"),
  mixed_aerosol: () => "Show any aerosol",
  no_noise: ({ sort }) => ofSort(NOISE_ORDERS.includes(sort)),
  noise_bound: ({ sort }) => ofSort(NOISE_ORDERS.includes(sort)),
  no_power: ({ sort }) => ofSort(sort === "cadr_per_watt"),
  no_cost: ({ sort }) => ofSort(sort === "cadr_per_cost"),
  other_currency: ({ sort }) => ofSort(sort === "cadr_per_cost"),
};

/** What to drop so that a reason holds no longer. */
function changeFor(reason: Reason, { sort }: LeaderboardOut) {
  switch (reason) {
    case "single_unpaired":
      return { unpaired: "include" };
    case "mixed_aerosol":
      return { aerosol: null };
    case "no_noise":
    case "noise_bound":
      return { noise_max: null, ...(NOISE_ORDERS.includes(sort) ? { sort: null } : {}) };
    case "no_power":
      return { power_max: null, ...(sort === "cadr_per_watt" ? { sort: null } : {}) };
    case "no_cost":
    case "other_currency":
      return { cost_max: null, currency: null, ...(sort === "cadr_per_cost" ? { sort: null } : {}) };
  }
}

function counted(count: number, one: string, more: string): string {
  return `${count} ${count === 1 ? one : more}`;
}
