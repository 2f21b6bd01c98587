import { AS_TABLE } from "../as-table.ts";
import { bandPhrase, unitWords } from "../figures.ts";
import { Between, inUnit, Quantity } from "../quantity.tsx";
import { dropsWords } from "../trial/drop-words.ts";
import { FINDING_WORDS, findingValue } from "../trial/finding-words.ts";
import { NATURAL_WORDS } from "../trial/record-words.ts";
import type { PreviewProps } from "./preview.tsx";

type Told = NonNullable<PreviewProps["analysis"]>;

/** The figures of the preview, what a reader should know of them, and what could not be told. */
export function PreviewResult(it: Pick<PreviewProps, "flow" | "runs" | "isSized"> & { readonly analysis: Told }) {
  const { flow, analysis, runs, isSized } = it;
  const levelUnit = (band: string) => {
    const channel = runs.flatMap(({ channels }) => channels).find(({ id }) => band === `c1/${id}`);
    return unitWords(channel?.unit ?? (band === "mass" ? "ug/m3" : "1/cm3"));
  };
  const { results } = analysis;
  const standard = results.filter(({ band }) => band.kind === "standard");
  const shown = standard.length > 0 ? standard : results.slice(0, 1);
  const first = shown[0];
  return (
    <>
      {first ? (
        <>
          {isSized ? <Rate result={first} flow={flow} /> : <Unsized result={first} />}
          {isSized && first.expected_elsewhere && (
            <p>
              Another room and another counter are expected to show{" "}
              <Between of={inUnit({ ...first.expected_elsewhere, value: first.cadr.value }, flow)} /> in 19 of 20 cases.
            </p>
          )}
          {shown.length > 1 ? <Bands flow={isSized ? flow : null} results={shown} /> : <OneBand result={first} />}
          {standard.length === 0 && (
            <p class="quiet">
              The counter's channels cover no size band of the lists: the test is kept, but not ranked.
            </p>
          )}
        </>
      ) : (
        <p class="error">No clean air delivery rate can be told from this yet.</p>
      )}
      {isSized && <Findings flow={flow} results={shown} levelUnit={levelUnit} />}
      <Refused analysis={analysis} />
    </>
  );
}

function Rate({ result: { cadr, band }, flow }: { result: Told["results"][number]; flow: PreviewProps["flow"] }) {
  return (
    <>
      <p class="figure">
        <Quantity of={inUnit(cadr, flow)} />
      </p>
      <p>
        Clean air delivery rate for <bdi>{bandPhrase(band.name)}</bdi>, in this room by this counter. ± is the 95&nbsp;%
        interval. Nothing is stored yet.
      </p>
    </>
  );
}

/** What the log says alone: the rate is the room's volume times this. */
function Unsized({ result: { air_changes, band } }: { result: Told["results"][number] }) {
  return (
    <>
      <p class="figure">
        <Quantity of={air_changes} />
      </p>
      <p>
        So much faster the air clears of <bdi>{bandPhrase(band.name)}</bdi> with the cleaner on than without it; ± is
        the 95&nbsp;% interval. Times the volume of the room this is the clean air delivery rate: with the room's size,
        above, it is told, and what else to know of the test.
      </p>
    </>
  );
}

function OneBand({ result: { total, natural } }: { result: Told["results"][number] }) {
  return (
    <p>
      The readings fall by <Quantity of={total.k} /> with the cleaner on, by <Quantity of={natural.k} /> without it (
      {NATURAL_WORDS[natural.source]}).
    </p>
  );
}

/** Without a flow unit the room's size is not known: then the difference of both decays stands for the rate. */
function Bands({ flow, results }: { flow: PreviewProps["flow"] | null; results: Told["results"] }) {
  const rate = flow === null ? "Cleaner alone, falls by" : "Clean air delivery rate";
  const heads = ["Counted", rate, "Cleaner on, falls by", "Cleaner off, falls by"] as const;
  return (
    <table class="stacks" {...AS_TABLE.table}>
      <thead>
        <tr {...AS_TABLE.row}>
          {heads.map((head) => (
            <th {...AS_TABLE.head}>{head}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {results.map(({ band, cadr, air_changes, total, natural }) => (
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.rowHead}>
              <bdi>{bandPhrase(band.name)}</bdi>
            </th>
            <td {...AS_TABLE.cell} data-head={heads[1]}>
              <Quantity of={flow === null ? air_changes : inUnit(cadr, flow)} />
            </td>
            <td {...AS_TABLE.cell} data-head={heads[2]}>
              <Quantity of={total.k} />
            </td>
            <td {...AS_TABLE.cell} data-head={heads[3]}>
              <Quantity of={natural.k} /> <small>{NATURAL_WORDS[natural.source]}</small>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const SEVERITY_WORDS = { serious: "Serious", warning: "Warning", note: "Note" };

interface Raised {
  readonly flow: PreviewProps["flow"];
  readonly results: Told["results"];
  readonly levelUnit: (band: string) => string;
}

/** Each finding once, the gravest first, with its value in each band that raised it and what to do next time. */
function Findings({ flow, results, levelUnit }: Raised) {
  const all = results.flatMap(({ band, findings }) => findings.map((finding) => ({ ...finding, band: band.name })));
  const told = [...Map.groupBy(all, ({ code, message }) => `${code} ${message}`).values()];
  const order = Object.keys(SEVERITY_WORDS);
  told.sort((a, b) => order.indexOf(a[0]!.severity) - order.indexOf(b[0]!.severity));
  if (told.length === 0) return null;
  return (
    <ul class="findings">
      {told.map((raised) => {
        const { code, severity, message } = raised[0]!;
        const each = raised.flatMap(({ value, band: name }) =>
          value === null ? [] : [{ name, words: findingValue(code, value, { flow, level: levelUnit(name) }) }],
        );
        const isSame = each.length === results.length && each.every(({ words }) => words === each[0]!.words);
        const values = (isSame ? each.slice(0, 1) : each).map(({ name, words }) =>
          isSame ? words : `${words} (${bandPhrase(name)})`,
        );
        return (
          <li class={severity}>
            <b>{SEVERITY_WORDS[severity]}.</b> <bdi>{message}</bdi>{" "}
            {values.length > 0 && (
              <small>
                <bdi>{sentence(values.join("; "))}</bdi>{" "}
              </small>
            )}
            <span class="next">Next time: {FINDING_WORDS[code].next}</span>
          </li>
        );
      })}
    </ul>
  );
}

function sentence(words: string): string {
  return `${words[0]!.toUpperCase()}${words.slice(1)}.`;
}

/** What could not be told, and why: open where that is all there is to say. */
function Refused({ analysis: { refusals, results, dropped } }: { analysis: Told }) {
  // A band that the counter does not cover is no news where there is a result, or another reason.
  const telling = refusals.filter(({ code }) => code !== "band-not-covered");
  const messages = [...new Set((telling.length > 0 ? telling : refusals).map(({ message }) => message))];
  const left = Map.groupBy(dropped, ({ reason }) => reason);
  if (messages.length === 0 && left.size === 0) return null;
  return (
    <details open={results.length === 0} data-auto={results.length === 0 ? "yes" : undefined}>
      <summary>What could not be told or used</summary>
      <ul>
        {messages.map((message) => (
          <li>
            <bdi>{message}</bdi>
          </li>
        ))}
        {[...left].map(([reason, drops]) => (
          <li>
            <bdi>{dropsWords(reason, drops)}</bdi>
          </li>
        ))}
      </ul>
    </details>
  );
}
