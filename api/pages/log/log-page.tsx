import { z } from "@hono/zod-openapi";
import { listNewest } from "../../../db/events.ts";
import { nameSubjects } from "../../../db/subject-names.ts";
import { readPageQuery } from "../../answer.ts";
import { readDoubt } from "../../doubt/rules.ts";
import type { App } from "../../endpoint.ts";
import { AS_TABLE } from "../as-table.ts";
import { instant } from "../figures.ts";
import { htmlAnswer, Page } from "../page.tsx";
import type { Reader } from "../reader.ts";
import { readerOf } from "../reader.ts";
import { ACTOR_WORDS } from "../trial/record-words.ts";
import { HAPPENED } from "./happened-words.ts";

const A_PAGE = 50;
const LogQuery = z.object({ before: z.coerce.number().int().positive().optional().catch(undefined) });

/** `GET /log`: everything that happened to records, newest first. */
export function addLogPage(app: App): void {
  app.get("/log", async (c) => {
    const { before } = readPageQuery(c, LogQuery);
    const found = await listNewest(c.var.deps.db.read, { before, limit: A_PAGE + 1 });
    const ids = found.flatMap(({ subject, actor }) => [subject, actor]);
    const names = await nameSubjects(c.var.deps.db.read, ids);
    return htmlAnswer(c, <LogPage reader={readerOf(c)} found={found} names={names} />);
  });
}

type Found = Awaited<ReturnType<typeof listNewest>>;

/** What people call what an id names. */
type Names = ReadonlyMap<string, string>;

function LogPage({ reader, found, names }: { readonly reader: Reader; readonly found: Found; readonly names: Names }) {
  const shown = found.slice(0, A_PAGE);
  return (
    <Page reader={reader} title="What happened · Motefall">
      <h1>What happened</h1>
      <p>
        Every step that changed a record or a figure, newest first: who took it, and why. Lines are added, never changed
        or taken out. As data: <a href="/v1/events">/v1/events</a>
      </p>
      {shown.length === 0 ? (
        <p>Nothing yet.</p>
      ) : (
        <table class="stacks" {...AS_TABLE.table}>
          <thead>
            <tr {...AS_TABLE.row}>
              <th {...AS_TABLE.head}>When</th>
              <th {...AS_TABLE.head}>What</th>
              <th {...AS_TABLE.head}>By</th>
              <th {...AS_TABLE.head}>Why</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((line) => (
              <Line line={line} names={names} />
            ))}
          </tbody>
        </table>
      )}
      {found.length > A_PAGE && (
        <p>
          <a href={`/log?before=${shown.at(-1)!.seq}`}>Earlier</a>
        </p>
      )}
    </Page>
  );
}

/** Of a question the log has only which one it is: its words stand with the record, and can be erased. */
const ASKED: ReadonlySet<string> = new Set(["trial-questioned", "question-answered"]);

function Line({ line, names }: { readonly line: Found[number]; readonly names: Names }) {
  const { seq, at, kind, subject, actor, reason } = line;
  const why =
    reason === null || ASKED.has(kind) || kind === "setting-added"
      ? ""
      : kind === "trial-doubted"
        ? (readDoubt(reason)?.message ?? reason)
        : reason;
  return (
    <tr {...AS_TABLE.row} id={`event-${seq}`}>
      <th {...AS_TABLE.rowHead}>{instant(at)}</th>
      <td {...AS_TABLE.cell} data-head="What">
        <Subject of={subject} name={names.get(subject)} /> {HAPPENED[kind] ?? kind.replaceAll("-", " ")}
        {kind === "setting-added" && reason !== null && (
          <>
            : <bdi>{reason}</bdi>
          </>
        )}
      </td>
      <td {...AS_TABLE.cell} data-head="By">
        {ACTOR_WORDS[actor] ?? <bdi>{names.get(actor) ?? actor}</bdi>}
      </td>
      <td {...AS_TABLE.cell} data-head={why === "" ? undefined : "Why"}>
        <bdi>{why}</bdi>
      </td>
    </tr>
  );
}

/** Records with a page of their own are led to, by what they are called. */
function Subject({ of, name }: { readonly of: string; readonly name: string | undefined }) {
  const [path, kind] = KINDS[of.slice(0, 3)] ?? [];
  if (!path) return <bdi>{of}</bdi>;
  return (
    <>
      {kind} <a href={`${path}/${of}`}>{of}</a>
      {name !== undefined && (
        <>
          {" "}
          (<bdi>{name}</bdi>)
        </>
      )}
    </>
  );
}

const KINDS: Readonly<Record<string, readonly [string, string]>> = {
  trl: ["/trials", "Test"],
  cfg: ["/configurations", "Cleaner"],
};
