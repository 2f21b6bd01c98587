import type { z } from "@hono/zod-openapi";
import { parseQuantityText, UnitError } from "../analysis/units.ts";
import { type Body, parseJson, type UploadedFile } from "./body.ts";
import { fromZod } from "./failure.ts";
import { invalid, RequestError } from "./problem.ts";

/** A trial as sent: the JSON as it came, what the schema made of it, and the files it names. */
export interface Submission<T> {
  readonly sent: Readonly<Record<string, unknown>>;
  readonly trial: T;
  readonly files: ReadonlyMap<string, UploadedFile>;
  /** A later complaint about the trial, pointing at what the client wrote. */
  readonly explain: (error: RequestError) => RequestError;
}

/** Reads a trial from a JSON body, from a form's `trial` part, or from the fields of the shortest call. */
export function readSubmission<T>(body: Body, schema: z.ZodType<T>): Submission<T> {
  const sent = body.kind === "json" ? body.value : sentInForm(body);
  const parsed = schema.safeParse(sent);
  const explain =
    body.kind === "form" && !namesTrial(body) ? (error: RequestError) => inFields(error, body.fields) : same;
  if (!parsed.success) throw explain(fromZod(parsed.error));
  return {
    sent: sent as Record<string, unknown>,
    trial: parsed.data,
    files: body.kind === "form" ? body.files : new Map(),
    explain,
  };
}

function sentInForm(body: Body & { kind: "form" }): unknown {
  const part = body.fields.get("trial") ?? body.files.get("trial")?.bytes;
  if (part === undefined) return fromFields(body.fields, body.files);
  const others = [...body.fields.keys()].filter((name) => name !== "trial");
  if (others.length) throw invalid([others[0]!], "Beside a trial part only files are read.");
  return parseJson(part);
}

function namesTrial({ fields, files }: Body & { kind: "form" }): boolean {
  return fields.has("trial") || files.has("trial");
}

const same = (error: RequestError) => error;

/** The same complaints, each pointing at the form field it is about. */
function inFields({ code, message, errors, details }: RequestError, fields: ReadonlyMap<string, string>): RequestError {
  const marks = MARKS.filter((name) => fields.has(name));
  const field = (text: string) =>
    text
      .replaceAll(/#\/runs\/0\/marks\/(\d)[\w/]*/g, (_, i: string) => `#/${marks[Number(i)]}`)
      .replaceAll(/#\/aerosol\/kind/g, "#/aerosol")
      .replaceAll(/#\/(?:room|counters\/0|runs\/0)\/(\w+)[\w/]*/g, "#/$1");
  return new RequestError(
    code,
    field(message),
    errors.map(({ detail, pointer }) => ({ detail, pointer: field(pointer) })),
    details,
  );
}

const ROOM_QUANTITIES = ["volume", "length", "width", "height"] as const;
const MARKS = ["cleaner_on", "aerosol_end"] as const;
const FIELDS = new Set<string>([
  ...ROOM_QUANTITIES,
  ...MARKS,
  "role",
  "principle",
  "ventilation",
  "mixing_fan",
  "aerosol",
]);

/** The shortest call: one full log and the room's volume, `curl -F file=@log.csv -F volume=30m3`. */
function fromFields(fields: ReadonlyMap<string, string>, files: ReadonlyMap<string, UploadedFile>): unknown {
  const unknown = [...fields.keys()].find((name) => !FIELDS.has(name));
  if (unknown !== undefined)
    throw invalid(
      [unknown],
      `Unknown form field ${JSON.stringify(unknown)}; those known are ${[...FIELDS].join(", ")}.`,
    );
  if (files.size !== 1) {
    throw new RequestError("invalid", "Send one log as a file part, or a trial part that says what each file is.", [
      { pointer: "#/file", detail: `${files.size} files were sent.` },
    ]);
  }
  const [file] = files.keys();
  const room = Object.fromEntries(
    [...ROOM_QUANTITIES].flatMap((name) => {
      const text = fields.get(name);
      return text === undefined ? [] : [[name, quantityField(name, text)]];
    }),
  );
  const marks = MARKS.flatMap((event) => {
    const text = fields.get(event);
    return text === undefined ? [] : [{ event, t: timeField(text) }];
  });
  const given = (name: string) => (fields.has(name) ? { [name]: fields.get(name) } : {});
  return {
    room: { ...room, ...given("ventilation"), ...given("mixing_fan") },
    counters: [{ id: "c1", ...given("principle") }],
    ...(fields.has("aerosol") ? { aerosol: { kind: fields.get("aerosol") } } : {}),
    runs: [{ role: fields.get("role") ?? "full_log", file, marks }],
  };
}

function quantityField(name: string, text: string) {
  try {
    return parseQuantityText(text);
  } catch (error) {
    if (error instanceof UnitError || error instanceof RangeError) throw invalid([name], error.message);
    throw error;
  }
}

/** A mark in the file's own time: a number, or a stamp. */
function timeField(text: string): number | string {
  return text.trim() !== "" && Number.isFinite(Number(text)) ? Number(text) : text.trim();
}
