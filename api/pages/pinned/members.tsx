import type { PinnedEntry, PinnedResult } from "../../wire/pinned.ts";
import { AS_TABLE } from "../as-table.ts";

interface Props {
  readonly result: PinnedResult;
  readonly pinned: PinnedEntry;
}

/** The tests a figure was made from, struck where they were withdrawn since. */
export function Members({ result, pinned: { members, members_sha256 } }: Props) {
  const gone = new Map(result.withdrawn_members.map((one) => [one.trial, one]));
  return (
    <section>
      <h2 id="tests">The tests it was made from</h2>
      <table class="stacks" {...AS_TABLE.table}>
        <caption>Each as it counted then</caption>
        <thead>
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.head}>Test</th>
            <th {...AS_TABLE.head}>Revision</th>
            <th {...AS_TABLE.head}>Method</th>
            <th {...AS_TABLE.head}>Room</th>
            <th {...AS_TABLE.head}>Its volume</th>
            <th {...AS_TABLE.head}>Since then</th>
          </tr>
        </thead>
        <tbody>
          {members.map(({ trial, revision, method_version, room, room_revision }) => {
            const withdrawn = gone.get(trial);
            return (
              <tr {...AS_TABLE.row}>
                <th {...AS_TABLE.rowHead}>
                  <a class={withdrawn && "struck"} href={`/trials/${trial}`}>
                    {trial}
                  </a>
                </th>
                <td {...AS_TABLE.cell} data-head="Revision">
                  {revision}
                </td>
                <td {...AS_TABLE.cell} data-head="Method">
                  {method_version}
                </td>
                <td {...AS_TABLE.cell} data-head="Room">
                  {room}
                </td>
                <td {...AS_TABLE.cell} data-head="Its volume">
                  {room_revision === 1 ? "as first stated" : `as corrected, revision ${room_revision}`}
                </td>
                <td {...AS_TABLE.cell} data-head="Since then">
                  {withdrawn ? (
                    <>
                      withdrawn on {withdrawn.at.slice(0, 10)}
                      {withdrawn.reason !== null && (
                        <>
                          : <bdi>{withdrawn.reason}</bdi>
                        </>
                      )}
                    </>
                  ) : (
                    "not withdrawn"
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <p class="quiet">
        Fingerprint of this list, as it was stored with the figure: <code>{members_sha256.slice(0, 12)}</code>… Another
        test or revision in it would give another.
      </p>
    </section>
  );
}
