import type { ConfigurationIn } from "../../wire/configuration.ts";
import { Money } from "../quantity.tsx";
import type { FlowUnit } from "../reader.ts";
import { PartsTable } from "./parts-table.tsx";
import { plainFigure } from "./stated-words.tsx";

interface Props {
  readonly words: ConfigurationIn;
  /** As it was sent, so that its unit still tells running from calendar time. */
  readonly filterLife: { readonly value: number; readonly unit: string } | null;
  readonly flow: FlowUnit;
}

/** Parts, arrangement, costs, filter life and plan, as whoever described it states them. */
export function WhatItIs({ words, filterLife, flow }: Props) {
  const { arrangement, maker, model, costs = [], plan_url: plan } = words;
  return (
    <>
      <h2>What it is made of</h2>
      <PartsTable parts={words.parts} flow={flow} />
      <dl>
        {maker && <Row name="Maker" value={maker} />}
        {model && <Row name="Model" value={model} />}
        <dt>Arrangement</dt>
        <dd>{arrangement ? <bdi>{arrangement}</bdi> : <small class="missing">not stated</small>}</dd>
        <dt>Costs</dt>
        <dd>
          {costs.length === 0 ? (
            <small class="missing">none stated</small>
          ) : (
            costs.map(({ item, money }, i) => (
              <>
                {i > 0 && "; "}
                {ITEMS[item]} <Money of={money} /> <small>({money.date})</small>
              </>
            ))
          )}
        </dd>
        <dt>Filters last</dt>
        <dd>
          {filterLife ? <bdi>{lifeWords(filterLife)}</bdi> : <small class="missing">not stated</small>}
          {filterLife && <small> as stated; how long they last depends on the dust</small>}
        </dd>
        <dt>Plan</dt>
        <dd>
          <Plan url={plan} />
        </dd>
      </dl>
    </>
  );
}

const ITEMS = { whole: "whole cleaner", filter_set: "set of filters", electricity_year: "electricity of a year" };

function Row({ name, value }: { readonly name: string; readonly value: string }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>
        <bdi>{value}</bdi>
      </dd>
    </>
  );
}

const TIMES: Readonly<Record<string, string>> = {
  h: "hours of running",
  d: "days",
  wk: "weeks",
  mo: "months",
  a: "years",
};

function lifeWords({ value, unit }: { readonly value: number; readonly unit: string }): string {
  return `${plainFigure(value)} ${TIMES[unit] ?? unit}`;
}

/** A stranger's link leads away with its host in sight, and only to the web. */
function Plan({ url }: { readonly url: string | undefined }) {
  const parsed = url === undefined ? null : URL.parse(url);
  if (parsed === null || !/^https?:$/.test(parsed.protocol)) return <small class="missing">none linked</small>;
  return (
    <>
      <a href={parsed.href} rel="nofollow ugc noopener">
        <bdi>{parsed.host}</bdi>
      </a>{" "}
      <small>
        <bdi>{parsed.href}</bdi>, linked by whoever described it
      </small>
    </>
  );
}
