import type { BestEntry } from "../../best-entries.ts";
import type { ConfigurationView } from "../../view-configuration-whole.ts";
import type { EntryOut } from "../../wire/entry.ts";
import { testWords } from "../counts.ts";
import { Quantity } from "../quantity.tsx";
import { WhoPaid } from "../who-paid.tsx";

/** A configuration that resembles this one or that it derives from, with what is best known of it for the same particles. */
export interface Relative {
  readonly id: string;
  readonly title: string;
  readonly differs: readonly string[];
  readonly best: BestEntry | null;
}

interface Props {
  readonly derivation: ConfigurationView["derivation"];
  readonly relatives: readonly Relative[];
  readonly opened: EntryOut | null;
  readonly others: readonly EntryOut[];
}

/** At most so many can be compared at once. */
const MOST_COMPARED = 6;

/** What it derives from, what resembles it, and what may be compared with what is opened. */
export function Relatives({ derivation, relatives, opened, others }: Props) {
  const alike = relatives.filter(({ id }) => id !== derivation?.id);
  const known = relatives.filter(({ best }) => best !== null);
  const ids = [...others.map(({ id }) => id), ...known.map(({ best }) => best!.id)].slice(0, MOST_COMPARED - 1);
  return (
    <>
      <h2>Relatives</h2>
      {derivation && (
        <p>
          It derives from{" "}
          <a href={`/configurations/${derivation.id}`}>
            <bdi>{derivation.title}</bdi>
          </a>
          <Differences of={derivation.differs} words=". What differs here: " />.
          <Best best={relatives.find(({ id }) => id === derivation.id)?.best ?? null} opened={opened} />
        </p>
      )}
      {alike.length === 0 ? (
        <p>{derivation ? "Nothing else stored resembles it." : "Nothing stored resembles it."}</p>
      ) : (
        <ul class="relatives">
          {alike.map((one) => (
            <li>
              <a href={`/configurations/${one.id}`}>
                <bdi>{one.title}</bdi>
              </a>
              <Differences of={one.differs} words=": " />
              <Best best={one.best} opened={opened} />
            </li>
          ))}
        </ul>
      )}
      {opened && ids.length > (others.length > 0 ? 0 : 1) && (
        <p class="unprinted">
          <a href={compareAddress([opened.id, ...ids])}>{compareWords(others.length > 0, known.length > 0)}</a>
        </p>
      )}
    </>
  );
}

function Differences({ of, words }: { readonly of: readonly string[]; readonly words: string }) {
  return of.length === 0 ? (
    <> (described alike)</>
  ) : (
    <>
      {words}
      {of.map((difference, i) => (
        <>
          {i > 0 && "; "}
          <bdi>{difference}</bdi>
        </>
      ))}
    </>
  );
}

function Best({ best, opened }: { readonly best: BestEntry | null; readonly opened: EntryOut | null }) {
  if (best === null) return <small class="line">no test for these particles</small>;
  return (
    <small class="line">
      <bdi>{best.setting}</bdi> <Quantity of={best.cadr} />, {testWords(best)}, <WhoPaid interest={best.interest} />
      {best.invented && (
        <>
          , <em>invented</em>
        </>
      )}
      {opened && (
        <>
          . <a href={compareAddress([opened.id, best.id])}>Compare with it</a>
        </>
      )}
    </small>
  );
}

function compareWords(hasSettings: boolean, hasRelatives: boolean): string {
  const what = [hasSettings ? "its other settings" : "", hasRelatives ? "all of these" : ""]
    .filter(Boolean)
    .join(" and ");
  return `Compare it with ${what}: how sure the differences are`;
}

function compareAddress(ids: readonly string[]): string {
  return `/compare?entries=${ids.join(",")}`;
}
