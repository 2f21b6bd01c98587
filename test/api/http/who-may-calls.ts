import { chosenValue } from "../../../api/pages/submit/form-fields.ts";
import { json, sampleTrial } from "../../support/sample-trial.ts";
import { CONDITIONS, csv } from "../pages/form-client.ts";

/** What one submitter stored, for calls to be made about. */
export interface Subject {
  readonly key: string;
  readonly prefix: string;
  readonly trial: string;
  readonly configuration: string;
  /** As it was sent. */
  readonly described: Readonly<Record<string, unknown>>;
  /** What its setting is called. */
  readonly setting: string;
  readonly room: string;
  readonly question: string;
  /** A configuration of the operator's choice to merge into. */
  readonly into: string;
}

/** Who calls, as to the subject. */
export type Caller = "nobody" | "other" | "own" | "operator";

export interface Call {
  readonly path: (subject: Subject) => string;
  readonly send: (subject: Subject, key: string | null, n: number) => RequestInit;
  /** The status for each caller; a key that opens nothing is answered as `revoked` says. */
  readonly statuses: Readonly<Record<Caller | "revoked", number>>;
  readonly stores: boolean;
}

type Statuses = Call["statuses"];
const OWNER: Statuses = { nobody: 401, other: 403, own: 201, operator: 201, revoked: 401 };
const OPERATOR: Statuses = { nobody: 401, other: 403, own: 403, operator: 200, revoked: 401 };
const SUBMITTER: Statuses = { nobody: 401, other: 201, own: 201, operator: 403, revoked: 401 };
const anyone = (status: number): Statuses => ({
  nobody: status,
  other: status,
  own: status,
  operator: status,
  revoked: status,
});

/** A call with a JSON body. */
function call(
  statuses: Statuses,
  path: Call["path"],
  body: (subject: Subject, n: number) => unknown,
  stores = true,
): Call {
  return {
    path,
    send: (subject, key, n) => json(body(subject, n), key === null ? {} : { Authorization: key }),
    statuses,
    stores,
  };
}

/** A form of a page: the key is a field of it. */
function form(statuses: Statuses, path: Call["path"], fields: (subject: Subject, n: number) => Fields): Call {
  return {
    path,
    send(subject, key, n) {
      const body = new FormData();
      for (const [name, value] of Object.entries(fields(subject, n))) body.set(name, value);
      if (key !== null) body.set("key", key.replace(/^Bearer ?/, ""));
      return { method: "POST", body };
    },
    statuses,
    stores: true,
  };
}
type Fields = Readonly<Record<string, string | File>>;

const m3 = (value: number) => ({ value, unit: "m3", u: 0.6 });
const SHORT = { runs: sampleTrial(1).runs.slice(1) };
const TEST_PLAN = {
  volume: m3(30),
  cadr: { value: 240, unit: "m3/h" },
  interval: { value: 10, unit: "s" },
  counter: { principle: "optical_counter" },
  wanted_u: { value: 5, unit: "m3/h" },
};
const reason = "for the table of callers";

/** Every call that may change something, by method and path as the application has them, and what becomes of whom. */
export const CALLS: Readonly<Record<string, Call>> = {
  "POST /v1/keys": call(
    anyone(201),
    () => "/v1/keys",
    () => ({ handle: "somebody" }),
  ),
  "DELETE /v1/keys/:prefix": {
    path: ({ prefix }) => `/v1/keys/${prefix}`,
    send: (_, key) => ({ method: "DELETE", ...(key === null ? {} : { headers: { Authorization: key } }) }),
    statuses: { ...OWNER, own: 204, operator: 204 },
    stores: true,
  },
  "POST /v1/trials": call(
    SUBMITTER,
    () => "/v1/trials",
    ({ described }, n) => {
      return sampleTrial(9500 + n, { ...SHORT, configuration: described });
    },
  ),
  "POST /v1/trials/:id/revisions": call(
    { ...OWNER, operator: 403 },
    ({ trial }) => `/v1/trials/${trial}/revisions`,
    () => {
      return { reason, interest: "paid" };
    },
  ),
  "POST /v1/trials/:id/withdrawal": call(
    { ...OWNER, own: 200, operator: 200 },
    ({ trial }) => `/v1/trials/${trial}/withdrawal`,
    () => ({ reason }),
  ),
  "POST /v1/trials/:id/questions": call(
    anyone(201),
    ({ trial }) => `/v1/trials/${trial}/questions`,
    (_, n) => {
      return { question: `question ${n}?` };
    },
  ),
  "POST /v1/questions/:id/answers": call(
    OWNER,
    ({ question }) => `/v1/questions/${question}/answers`,
    () => {
      return { answer: "It was." };
    },
  ),
  "POST /v1/moderation": call(
    OPERATOR,
    () => "/v1/moderation",
    ({ trial }) => {
      return { subject: trial, action: "hold", reason };
    },
  ),
  "POST /v1/configurations": call(
    SUBMITTER,
    () => "/v1/configurations",
    ({ described }, n) => {
      return { ...described, arrangement: `described alone, ${n}` };
    },
  ),
  "POST /v1/configurations/similar": call(
    anyone(200),
    () => "/v1/configurations/similar",
    ({ described }) => described,
    false,
  ),
  "POST /v1/configurations/:id/revisions": call(
    OWNER,
    ({ configuration }) => `/v1/configurations/${configuration}/revisions`,
    ({ described }) => ({ ...described, title: "In other words" }),
  ),
  "POST /v1/configurations/:id/merge": call(
    OPERATOR,
    ({ configuration }) => `/v1/configurations/${configuration}/merge`,
    ({ into }) => ({ into, reason }),
  ),
  "POST /v1/rooms/:id/revisions": call(
    OWNER,
    ({ room }) => `/v1/rooms/${room}/revisions`,
    () => {
      return { volume: m3(33), reason };
    },
  ),
  "POST /v1/analyses": call(
    anyone(200),
    () => "/v1/analyses",
    () => {
      const { room, counters, runs } = sampleTrial(9400, SHORT);
      return { room: { volume: room.volume }, counters, runs };
    },
    false,
  ),
  "POST /v1/test-plans": call(
    anyone(200),
    () => "/v1/test-plans",
    () => TEST_PLAN,
    false,
  ),
  "POST /submit": form(
    { nobody: 422, other: 303, own: 303, operator: 422, revoked: 422 },
    () => "/submit",
    ({ configuration, setting }, n) => ({
      ...CONDITIONS,
      do: "publish",
      configuration: chosenValue(configuration, setting),
      "room.volume": String(30 + n / 64), // another test each time
      "full_log.file": csv(),
    }),
  ),
  "POST /trials/:id/withdrawal": form(
    { nobody: 422, other: 422, own: 303, operator: 303, revoked: 422 },
    ({ trial }) => `/trials/${trial}/withdrawal`,
    () => ({ reason }),
  ),
  "POST /trials/:id/amendment": form(
    { nobody: 422, other: 422, own: 303, operator: 422, revoked: 422 },
    ({ trial }) => `/trials/${trial}/amendment`,
    (_, n) => ({ reason, note: `put right, ${n}` }),
  ),
  "POST /questions/:id/answer": form(
    { nobody: 422, other: 422, own: 303, operator: 303, revoked: 422 },
    ({ question }) => `/questions/${question}/answer`,
    (_, n) => ({ answer: `answered by a form, ${n}` }),
  ),
  "POST /trials/:id/questions": form(
    anyone(303),
    ({ trial }) => `/trials/${trial}/questions`,
    (_, n) => {
      return { question: `asked by a form, ${n}?` };
    },
  ),
};
