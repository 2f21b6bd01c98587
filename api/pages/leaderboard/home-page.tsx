import type { LeaderboardOut } from "../../wire/leaderboard.ts";
import { IntervalBar } from "../charts/interval-bar.tsx";
import { BAND_WORDS, bandPhrase, INTEREST_WORDS, instant, range, unitWords } from "../figures.ts";
import { InventedNote, Page } from "../page.tsx";
import type { Reader } from "../reader.ts";

/** The leaderboard: what cleans how much air, with its uncertainty, who paid, and how often it was tested. */
export function HomePage({ board, reader }: { board: LeaderboardOut; reader: Reader }) {
  const most = Math.max(1, ...board.entries.map(({ cadr }) => cadr.high));
  const unit = unitWords(board.unit);
  return (
    <Page reader={reader} title={`Clean air delivery rates, ${BAND_WORDS[board.band]} · Motefall`}>
      <h1>How much air does it clean?</h1>
      <p>
        Clean air delivery rates (CADR) of air cleaners, home-made and bought, from decay tests in ordinary rooms. Every
        log is fitted here in the same way: natural loss is taken off and the rate is multiplied by the room's volume,
        so that the figure belongs to the cleaner and not to the room.
      </p>
      {board.entries.some(({ invented }) => invented) && <InventedNote />}
      <nav aria-label="Particle sizes">
        {Object.entries(BAND_WORDS).map(([band, words]) => (
          <a href={`/?band=${band}`} aria-current={band === board.band ? "page" : undefined}>
            {band === board.band ? <strong>{words}</strong> : words}
          </a>
        ))}
      </nav>
      {board.entries.length === 0 ? (
        <p>Nothing is listed for {bandPhrase(board.band)} yet.</p>
      ) : (
        <div class="scroll">
          <table>
            <caption class="quiet">
              Clean air delivery rate for {bandPhrase(board.band)}; in brackets the 95 % interval, which holds how much
              laboratories differ; under a rank, the ranks it may have
            </caption>
            <thead>
              <tr>
                <th class="number">Rank</th>
                <th>Cleaner and setting</th>
                <th class="number">CADR, {unit}</th>
                <th>95 % interval, one scale</th>
                <th class="number">Trials</th>
                <th class="number">Rooms</th>
                <th>Who paid</th>
                <th class="number">Cost</th>
              </tr>
            </thead>
            <tbody>
              {board.entries.map((entry) => (
                <Row entry={entry} most={most} />
              ))}
            </tbody>
          </table>
        </div>
      )}
      {board.excluded.single_unpaired ? (
        <p class="quiet">
          {board.excluded.single_unpaired} left out: they rest on one trial whose natural loss was not measured in the
          same room on the same day. <a href={`/?band=${board.band}&unpaired=include`}>Show them too</a>.
        </p>
      ) : null}
      {board.next && (
        <p>
          <a href={nextPage(board.next)}>More</a>
        </p>
      )}
      <p class="quiet">{board.as_of ? `As of ${instant(board.as_of)}.` : "No trial is stored yet."}</p>
    </Page>
  );
}

function Row({ entry, most }: { entry: LeaderboardOut["entries"][number]; most: number }) {
  const { cadr, configuration, cost } = entry;
  const words = [
    configuration.kind === "user_built" ? "user-built" : "commercial",
    entry.setting,
    entry.invented ? "invented" : "",
  ];
  return (
    <tr>
      <td class="number">
        {entry.rank}
        {entry.rank_low === entry.rank_high ? null : (
          <>
            <br />
            <small>
              {entry.rank_low}–{entry.rank_high}
            </small>
          </>
        )}
      </td>
      <td>
        <a href={`/entries/${entry.id}`}>{configuration.title}</a>
        <br />
        <small>{words.filter(Boolean).join(" · ")}</small>
      </td>
      <td class="number">{range(cadr)}</td>
      <td>
        <IntervalBar low={cadr.low} value={cadr.value} high={cadr.high} most={most} />
      </td>
      <td class="number">{entry.trials}</td>
      <td class="number">{entry.rooms}</td>
      <td>
        {Object.entries(entry.interest).map(([interest, count]) => (
          <div>
            <small>
              {count} × {INTEREST_WORDS[interest] ?? interest}
            </small>
          </div>
        ))}
      </td>
      <td class="number">{cost ? `${cost.value} ${cost.currency}` : "–"}</td>
    </tr>
  );
}

/** The page's address of what the API calls the next page. */
function nextPage(next: string): string {
  return `/${new URL(next).search}`;
}
