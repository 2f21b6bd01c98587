import type { BandResultOut } from "../../wire/analysis.ts";
import type { Reader } from "../reader.ts";
import { SafetyLine } from "../texts/safety-short.tsx";
import { FINDING_WORDS, findingValue, flowWords } from "./finding-words.ts";
import { bandWords } from "./record-words.ts";

type Finding = BandResultOut["findings"][number];

interface Props {
  readonly reader: Reader;
  /** Whether the trial has several results. */
  readonly several: boolean;
  /** The results whose findings are told. */
  readonly results: readonly (Pick<BandResultOut, "findings"> & {
    readonly band: Pick<BandResultOut["band"], "kind" | "name">;
  })[];
  /** The unit a band's readings are in, in words. */
  readonly unitOf: (band: string) => string;
}

const SEVERITY_WORDS: Record<Finding["severity"], string> = {
  serious: "Serious",
  warning: "Warning",
  note: "Note",
};

/** What is so serious that it stands before any figure: each message once. */
export function SeriousNote({ results }: Pick<Props, "results">) {
  const messages = results.flatMap(({ findings }) =>
    findings.filter(({ severity }) => severity === "serious").map(({ message }) => message),
  );
  return [...new Set(messages)].map((message) => (
    <p role="note" class="caution">
      <b>Serious.</b> {message} <a href="#findings">All findings</a>
    </p>
  ));
}

/** What a reader should know about the results, each finding once with the bands it concerns, and what to do next time. */
export function Findings({ reader, several, results, unitOf }: Props) {
  if (results.length === 0) return null;
  const all = results.flatMap(({ band, findings }) => findings.map((finding) => ({ band, finding })));
  const told = [...Map.groupBy(all, ({ finding }) => `${finding.code} ${finding.message}`).values()];
  const order = Object.keys(SEVERITY_WORDS);
  told.sort((a, b) => order.indexOf(a[0]!.finding.severity) - order.indexOf(b[0]!.finding.severity));
  return (
    <section class="trial-findings">
      <h2 id="findings">What to know about {several ? "these results" : "this result"}</h2>
      {told.length === 0 && <p>The analysis found nothing to remark on.</p>}
      <ul>
        {told.map((same) => {
          const { code, severity, message } = same[0]!.finding;
          return (
            <li class={severity}>
              <b>{SEVERITY_WORDS[severity]}.</b> {message}
              <ul class="finding-values">
                {same.map(({ band, finding }) => (
                  <li>
                    <bdi>{bandWords(band)}</bdi>
                    {finding.value !== null &&
                      `: ${findingValue(code, finding.value, { flow: reader.flow, level: unitOf(band.name) })}`}
                    {finding.effect &&
                      `; adds a standard uncertainty of ${flowWords(finding.effect.value, reader.flow)}`}
                  </li>
                ))}
              </ul>
              <span class="next">Next time: {FINDING_WORDS[code].next}</span>
            </li>
          );
        })}
      </ul>
      {told.length > 0 && <SafetyLine />}
      {told.length > 0 && (
        <p class="quiet unprinted">
          “Next time” is common practice, without a source. The value that raised a finding has no interval of its own;
          a fitted rate stands with its interval among the rates of decay.
          {all.some(({ finding }) => finding.effect !== null) &&
            " What a finding adds stands in the budget of its band, and the interval holds it already."}
        </p>
      )}
    </section>
  );
}
