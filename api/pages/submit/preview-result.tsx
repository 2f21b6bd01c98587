import { bandPhrase } from "../figures.ts";
import { inUnit, Quantity } from "../quantity.tsx";
import type { PreviewProps } from "./preview.tsx";

type Told = NonNullable<PreviewProps["analysis"]>;

/** The figures of the preview in words, with what to do better next time. */
export function PreviewResult({ flow, analysis }: { flow: PreviewProps["flow"]; analysis: Told }) {
  const standard = analysis.results.filter(({ band }) => band.kind === "standard");
  const shown = standard.length > 0 ? standard : analysis.results.slice(0, 1);
  return (
    <>
      {shown.map(({ band, cadr, total, natural, findings }) => (
        <section>
          <p class="figure">
            <Quantity of={inUnit(cadr, flow)} />
          </p>
          <p>
            Clean air delivery rate for <bdi>{bandPhrase(band.name)}</bdi>, in this room by this counter. ± is the
            95&nbsp;% interval.
          </p>
          <dl>
            <dt>With the cleaner on</dt>
            <dd>
              falls by <Quantity of={total.k} />
            </dd>
            <dt>Without it</dt>
            <dd>
              falls by <Quantity of={natural.k} />, {NATURAL_WORDS[natural.source]}
            </dd>
          </dl>
          <ul class="findings">
            {findings.map(({ severity, message }) => (
              <li class={severity}>{message}</li>
            ))}
          </ul>
        </section>
      ))}
      {analysis.results.length === 0 && <p class="error">No clean air delivery rate can be told from this yet.</p>}
      <Refused analysis={analysis} />
    </>
  );
}

const NATURAL_WORDS = { measured: "measured", other_day: "measured on another day", assumed: "assumed, not measured" };

function Refused({ analysis: { refusals } }: { analysis: Told }) {
  if (refusals.length === 0) return null;
  return (
    <ul>
      {[...new Set(refusals.map(({ message }) => message))].map((message) => (
        <li>
          <bdi>{message}</bdi>
        </li>
      ))}
    </ul>
  );
}
