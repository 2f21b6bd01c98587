import { MAX_BODY_BYTES, MAX_VALUES } from "../../../body.ts";
import { Part } from "../part.tsx";

/** What holds for every call. */
export function RulesPart({ publicUrl }: { readonly publicUrl: string }) {
  return (
    <Part id="rules" title="What holds for every call">
      <dl>
        <dt>Address</dt>
        <dd>
          Here: <code>{publicUrl}</code>. Examples say motefall.example in its place.
        </dd>
        <dt>Quantities</dt>
        <dd>
          <code>{`{"value": 30, "unit": "m3", "u": 0.6}`}</code>, <code>u</code> the standard uncertainty. Units are
          UCUM codes or the trade’s spellings; an unknown one is refused with the list of those known. Answers add{" "}
          <code>low</code> and <code>high</code>, the 95&nbsp;% interval, and <code>dof</code>, null for infinite.
        </dd>
        <dt>Keys</dt>
        <dd>
          <code>Authorization: Bearer mote_…</code>, to store, correct and withdraw. Reading and analysing need none.
        </dd>
        <dt>Sent twice</dt>
        <dd>
          The same test from the same key is stored once and answered with 200. An <code>Idempotency-Key</code> (1 to
          200 characters) makes a retry safe; the same one with other content is a 409.
        </dd>
        <dt>Other sites</dt>
        <dd>
          Any page may call this from a browser (CORS: *, without cookies). Nothing is set but the cookie of units on
          pages.
        </dd>
        <dt>Limits</dt>
        <dd>
          {MAX_BODY_BYTES / 1024 ** 2} MiB a request after unpacking gzip,{" "}
          {MAX_VALUES.toLocaleString("en").replaceAll(",", "\u00a0")} values with times and blanks. The answer 413 says
          how to stay under.
        </dd>
        <dt>Problems</dt>
        <dd>
          <code>application/problem+json</code> (RFC 9457) with a <code>code</code> and pointers:{" "}
          <a href="/problems">every code</a> with what to do. At 429 wait for <code>Retry-After</code>.
        </dd>
        <dt>Corrections</dt>
        <dd>
          <code>POST /v1/trials/{"{id}"}/revisions</code> amends who paid, conditions, marks and windows (there in
          seconds after a run’s first row), <code>/v1/rooms/{"{id}"}/revisions</code> a volume. The earlier revision
          stays to be read. <code>pending</code> means that a stated rule doubts a test, and a person will look:{" "}
          <code>doubts</code> says why.
        </dd>
        <dt>For good</dt>
        <dd>
          <code>/v1/pinned/…</code> answers one figure with the same bytes for good; its <code>Repr-Digest</code> is
          their SHA-256. A withdrawal is added beside it. <code>/v1/citation?of=/pinned/…&amp;style=</code> cites it:
          plain, markdown, bbcode, html, bibtex, biblatex, csl-json or ris. Every trial and entry page has its address.
        </dd>
        <dt>Open data</dt>
        <dd>
          <a href="/v1/dumps">/v1/dumps</a> lists files of all that is stored, where this registry gives them away;{" "}
          <a href="/log">what happened</a> is also at <a href="/v1/events">/v1/events</a>.
        </dd>
        <dt>Unchanged</dt>
        <dd>
          The list sends an <code>ETag</code>: ask again with <code>If-None-Match</code> and get 304 while nothing has
          changed.
        </dd>
        <dt>CSV</dt>
        <dd>
          What a spreadsheet might run is quoted and begins with an apostrophe. Take numbers from JSON where you can.
        </dd>
        <dt>More fields</dt>
        <dd>Answers may grow new fields. Those described here keep their names and meanings.</dd>
      </dl>
    </Part>
  );
}
