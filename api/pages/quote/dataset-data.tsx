import { raw } from "hono/html";
import { LICENCE, noteOf, PUBLISHER, type Reference } from "../../citation/reference.ts";
import type { PinnedResult } from "../../wire/pinned.ts";

/** The figure as schema.org's Dataset (JSON-LD 1.1), for those who gather data by machine. It is data: nothing runs it. */
export function DatasetData({ result, reference }: { readonly result: PinnedResult; readonly reference: Reference }) {
  const text = JSON.stringify(datasetOf(result, reference)).replaceAll("<", "\\u003c");
  return <script type="application/ld+json">{raw(text)}</script>;
}

export function datasetOf({ pinned, url, page }: PinnedResult, reference: Reference) {
  const { cadr } = pinned;
  return {
    "@context": "https://schema.org",
    "@type": "Dataset",
    "@id": page,
    name: reference.title,
    description: `${noteOf(reference)}.`,
    url: page,
    identifier: page,
    version: reference.version,
    datePublished: reference.date,
    license: LICENCE.url,
    isAccessibleForFree: true,
    creator: { "@type": pinned.kind === "trial" ? "Person" : "Organization", name: reference.author },
    publisher: { "@type": "Organization", name: PUBLISHER },
    measurementTechnique: `Decay of particle concentration in a closed room, cleaner on against off; method ${pinned.method_version}`,
    variableMeasured: {
      "@type": "PropertyValue",
      name: "Clean air delivery rate (CADR)",
      value: cadr.value,
      minValue: cadr.low,
      maxValue: cadr.high,
      unitText: "m³/h",
    },
    distribution: { "@type": "DataDownload", contentUrl: url, encodingFormat: "application/json" },
  };
}
