import { simulateRuns } from "../../analysis/simulate/simulate-log.ts";
import { toCsv } from "../../analysis/simulate/to-csv.ts";
import { SAMPLE_CONFIGURATION, sampleScenario, sampleTrial, sentSeries } from "./sample-trial.ts";

/** Words that break what takes them for more than words. Each begins with the harm, so that short fields hold it as well. */
export const HOSTILE = [
  `<img src=x onerror="alert(1)">"></title></textarea></style><script>alert(2)</script>`,
  `</script><script>alert(3)</script><svg onload=alert(4)>' onfocus='alert(5)' autofocus='`,
  `=HYPERLINK("http://example.org/?"&A1,"look")`,
  "@SUM(1+9)*cmd|' /C calc'!A0",
  "\u202Egnorw si txet siht\u2066\u2067 \u202Dand \u061Cthis",
  "W".repeat(5000),
  "\u200B\u200C\u200D\u2060\uFEFF\u00AD zero\u200Bwidth \u{1F469}\u200D\u{1F52C}\u{1F3F4}\u200D\u2620\uFE0F Z\u0351\u0343\u036B\u0301\u0310\u0308\u0306algo",
  "\u0645\u0631\u062D\u0628\u0627 \u05E9\u05DC\u05D5\u05DD {{7*7}} $(7*7) %s %00 ../../etc/passwd \\u003cb\\u003e &lt;b&gt; &#60;",
] as const;

/** A trial with hostile words in every field that takes words, another in each by `shift`: a form, since one run is a file. */
export function hostileTrial(shift: number): FormData {
  let field = shift;
  const words = (most: number) => [...HOSTILE[field++ % HOSTILE.length]!].join("").slice(0, most).trim().toWellFormed();
  const { schedule: _, ...scenario } = sampleScenario(shift + 100);
  const runs = simulateRuns(scenario, { background: 300, natural: 1500, total: 1500 });
  const counter = words(40);
  const channel = words(60);
  const series = (role: "background" | "natural") => {
    const sent = sentSeries(runs[role].series);
    return { role, counter, series: { ...sent, channels: sent.channels.map((each) => ({ ...each, id: channel })) } };
  };
  const setting = words(60);
  const columns = {
    channels: [{ column: channel, id: channel, quantity: "number", unit: "1/cm3", from_um: 0.3, to_um: 1 }],
  };
  const trial = sampleTrial(shift, {
    configuration: {
      ...SAMPLE_CONFIGURATION,
      kind: "commercial",
      title: words(120),
      maker: words(80),
      model: words(80),
      arrangement: words(200),
      parts: [
        { part: "fan", count: 1, description: words(200), size: words(100) },
        {
          part: "filter",
          count: 2,
          description: words(200),
          size: words(100),
          filter_grade: { system: "other", grade: words(40), edition: words(40) },
        },
      ],
      settings: [{ label: setting }],
      plan_url: `https://example.org/${encodeURIComponent(words(100))}?"><script>alert(6)</script>`,
    },
    setting,
    room: { label: words(80), volume: { value: 30, unit: "m3", u: 0.6 } },
    aerosol: { kind: "other", note: words(500) },
    counters: [{ id: counter, principle: "optical_counter", model: words(80), position: words(120) }],
    specimen: words(120),
    note: words(4000),
    runs: [series("background"), series("natural"), { role: "total", counter, file: "log", columns }],
  });
  const { channels, ...rest } = runs.total.series;
  const log = toCsv({ ...rest, channels: channels.map((each) => ({ ...each, id: channel })) });
  const form = new FormData();
  form.set("trial", JSON.stringify(trial));
  form.set("log", new File([log], words(200), { type: "text/csv" }));
  return form;
}
