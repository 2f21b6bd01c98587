import type { StoredConfiguration } from "../../../db/configurations.ts";
import type { BestEntry } from "../../best-entries.ts";
import { AS_TABLE } from "../as-table.ts";
import { KindLine } from "../cleaner-name.tsx";
import { testWords } from "../counts.ts";
import { BAND_WORDS } from "../figures.ts";
import { InventedNote, PARTICLES_ONLY, Page } from "../page.tsx";
import { Missing, Quantity } from "../quantity.tsx";
import type { Reader } from "../reader.ts";
import { WhoPaid } from "../who-paid.tsx";

interface Props {
  readonly reader: Reader;
  readonly q: string;
  readonly found: readonly StoredConfiguration[];
  readonly best: ReadonlyMap<string, BestEntry>;
  /** There are more than are shown. */
  readonly isCut: boolean;
}

/** All that was described, newest first, found by words of its title. */
export function ConfigurationsPage({ reader, q, found, best, isCut }: Props) {
  const known = found.flatMap(({ id }) => best.get(id) ?? []);
  const invented = known.filter((entry) => entry.invented).length;
  return (
    <Page reader={reader} title="Cleaners described · Motefall">
      <h1>Cleaners described</h1>
      <p>
        Every cleaner that somebody described, home-made or commercial, tested or not, newest first. Other parts or
        another arrangement make another cleaner. {PARTICLES_ONLY} <a href="/">The list by clean air</a>
      </p>
      {invented > 0 && <InventedNote some={invented < found.length} />}
      <search>
        <form method="get" action="/configurations">
          <div class="fields">
            <div class="field">
              <label for="f-q">Words of its title, or its number</label>
              <input id="f-q" type="search" name="q" value={q} maxlength={100} autocomplete="off" />
            </div>
            <div class="field">
              <button type="submit" class="first">
                Search
              </button>
              {q !== "" && (
                <>
                  {" "}
                  <a class="button" href="/configurations">
                    All
                  </a>
                </>
              )}
            </div>
          </div>
        </form>
      </search>
      {found.length === 0 ? (
        <p>
          {q === "" ? "Nothing is described yet. " : "No title holds these words. "}
          <a href="/submit">Add a test</a>
        </p>
      ) : (
        <Found found={found} best={best} />
      )}
      {isCut && <p>{`The newest ${found.length} are shown: search for others.`}</p>}
    </Page>
  );
}

function Found({ found, best }: Pick<Props, "found" | "best">) {
  return (
    <table class="stacks" {...AS_TABLE.table}>
      <caption>
        Clean air: at the setting and for the particles that most tests were made of, with its 95&nbsp;% interval
      </caption>
      <thead>
        <tr {...AS_TABLE.row}>
          <th {...AS_TABLE.head}>Cleaner</th>
          <th {...AS_TABLE.head}>Clean air</th>
          <th {...AS_TABLE.head}>Tests</th>
          <th {...AS_TABLE.head}>Who paid</th>
          <th {...AS_TABLE.head}>Described</th>
        </tr>
      </thead>
      <tbody>
        {found.map(({ id, title, kind, createdAt }) => {
          const entry = best.get(id);
          return (
            <tr {...AS_TABLE.row}>
              <th {...AS_TABLE.rowHead}>
                <a href={`/configurations/${id}`}>
                  <bdi>{title}</bdi>
                </a>
                <KindLine kind={kind} invented={entry?.invented ?? false} />
              </th>
              <td {...AS_TABLE.cell} data-head="Clean air">
                {entry ? (
                  <>
                    <Quantity of={entry.cadr} />
                    <small class="line">
                      {entry.setting && (
                        <>
                          <bdi>{entry.setting}</bdi>,{" "}
                        </>
                      )}
                      {BAND_WORDS[entry.band]}
                    </small>
                  </>
                ) : (
                  <Missing why="not tested" />
                )}
              </td>
              <td {...AS_TABLE.cell} data-head="Tests">
                {entry ? testWords(entry) : "none"}
              </td>
              <td {...AS_TABLE.cell} data-head="Who paid">
                {entry ? <WhoPaid interest={entry.interest} /> : "nobody"}
              </td>
              <td {...AS_TABLE.cell} data-head="Described">
                <time class="date">{createdAt.slice(0, 10)}</time>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
