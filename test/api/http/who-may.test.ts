import { type Client, createClient } from "@libsql/client";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createApp } from "../../../api/app.ts";
import { checkCharacter } from "../../../api/crockford.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { openTemporary, settings } from "../../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { tableContents } from "../../support/table-contents.ts";
import { type Target, targets } from "../../support/targets.ts";
import { CALLS, type Call, type Subject } from "./who-may-calls.ts";

const READING = new Set(["GET", "HEAD", "OPTIONS", "ALL"]);

test("the table names every call of the application that is no reading, and none besides", async () => {
  const { deps, discard } = await openTemporary();
  const app = createApp(() => deps);
  const routes = app.routes.filter(({ method }) => !READING.has(method));
  expect([...new Set(routes.map(({ method, path }) => `${method} ${path}`))].sort()).toEqual(Object.keys(CALLS).sort());
  await discard();
});

describe.each(targets())("who may change what: $name", ({ start }) => {
  let target: Target;
  let database: Client;
  let other: string;
  let into: string;
  let shared: Subject;
  let revoked: Subject;
  let n = 0;

  beforeAll(async () => {
    target = await start();
    database = createClient({ url: target.databaseUrl!, authToken: target.databaseToken });
    other = await newKey(target);
    const described = { ...SAMPLE_CONFIGURATION, arrangement: "merged into" };
    const answer = await target.request("/v1/configurations", json(described, bearer(other)));
    into = ((await answer.json()) as { id: string }).id;
    shared = await newSubject();
    revoked = await newSubject();
    const path = `/v1/keys/${revoked.prefix}`;
    await target.request(path, { method: "DELETE", headers: bearer(revoked.key) });
  }, 60_000);
  afterAll(async () => {
    database.close();
    await target.stop();
  });

  async function newSubject(): Promise<Subject> {
    const key = await newKey(target);
    const described = { ...SAMPLE_CONFIGURATION, arrangement: `box ${++n}` };
    const runs = sampleTrial(9000 + n).runs.slice(1);
    const trial = await store(target, key, sampleTrial(9000 + n, { configuration: described, runs }));
    const asked = await target.request(`/v1/trials/${trial.id}/questions`, json({ question: "Was it?" }));
    const { questions } = (await asked.json()) as { questions: { id: string }[] };
    return {
      key,
      prefix: key.split("_")[1]!,
      trial: trial.id,
      configuration: trial.configuration.id,
      described,
      setting: trial.setting,
      room: (trial as StoredTrial & { room: { id: string } }).room.id,
      question: questions[0]!.id,
      into,
    };
  }

  test("/openapi.json names no call that the table does not", async () => {
    const { paths } = (await (await target.request("/openapi.json")).json()) as { paths: Record<string, object> };
    const calls = Object.entries(paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${path.replaceAll(/\{(\w+)\}/g, ":$1")}`),
    );
    const changing = calls.filter((call) => !READING.has(call.split(" ")[0]!));
    expect(changing.length).toBeGreaterThan(10);
    expect(Object.keys(CALLS)).toEqual(expect.arrayContaining(changing));
  });

  /** Makes the call; whether anything stored is otherwise after it. */
  async function made(call: Call, subject: Subject, authorization: string | null, before: string) {
    const { redirect, ...init } = { redirect: "manual" as const, ...call.send(subject, authorization, ++n) };
    const answer = await target.request(call.path(subject), { redirect, ...init });
    const text = await answer.text();
    const after = JSON.stringify(await tableContents(database));
    return { status: answer.status, text, changed: after !== before, after };
  }

  test.each(Object.entries(CALLS))(
    "%s",
    async (_, call) => {
      const { statuses, stores } = call;
      const worthless = {
        "a revoked key": `Bearer ${revoked.key}`,
        "a mistyped key": `Bearer ${mistyped(shared.key)}`,
        "a key nobody has": `Bearer ${mistyped(shared.key, 2)}`,
        "a key in another scheme": `Basic ${btoa(`${shared.key}:`)}`,
        "a key under another name": `Token ${shared.key}`,
        "no key behind the scheme": "Bearer ",
      };
      const callers: [string, number, Subject, string | null][] = [
        ["nobody", statuses.nobody, shared, null],
        ["another submitter", statuses.other, shared, `Bearer ${other}`],
        ...Object.entries(worthless).map(([who, authorization]): [string, number, Subject, string] => {
          return [who, statuses.revoked, who === "a revoked key" ? revoked : shared, authorization];
        }),
      ];
      for (const who of ["own", "operator"] as const) {
        const subject = stores && statuses[who] < 400 ? await newSubject() : shared;
        callers.push([who, statuses[who], subject, `Bearer ${who === "own" ? subject.key : settings.operatorKey}`]);
      }
      let before = JSON.stringify(await tableContents(database));
      for (const [who, status, subject, authorization] of callers) {
        const { after, text, ...outcome } = await made(call, subject, authorization, before);
        expect({ who, ...outcome, text: outcome.status === status ? "" : text.slice(0, 2000) }).toEqual({
          who,
          status,
          changed: stores && status < 400,
          text: "",
        });
        before = after;
      }
    },
    60_000,
  );
});

/** The key with other characters at its end: one wrong, or another secret whose check character fits. */
function mistyped(key: string, changes: 1 | 2 = 1): string {
  if (changes === 1) return key.slice(0, -1) + (key.endsWith("0") ? "1" : "0");
  const [scheme, prefix, rest] = key.split("_") as [string, string, string];
  const secret = rest.slice(0, -1).split("").reverse().join("");
  return `${scheme}_${prefix}_${secret}${checkCharacter(prefix + secret)}`;
}
