import { z } from "@hono/zod-openapi";
import type { Ctx } from "../../environment.ts";
import { EntryQuery } from "../../wire/entry.ts";
import { FigureField, type Filled } from "../form/fields.tsx";
import { WrongFields } from "../form/wrong-fields.tsx";

/** What a reader says of how they would run it, as typed and as understood. */
export interface YearAsked extends Filled {
  readonly query: Pick<EntryQuery, "hours" | "electricity_price">;
}

const Asked = z.object({ hours: EntryQuery.shape.hours, electricity_price: EntryQuery.shape.electricity_price });

const FIELDS = {
  hours: {
    label: "Hours it runs a day",
    complaint: "A number of hours over 0, up to 24, is meant.",
    mode: "decimal",
    example: "8",
  },
  electricity_price: {
    label: "Price of a kilowatt-hour",
    complaint: "An amount and the three letters of its currency are meant, as in 0.30 EUR.",
    mode: "text",
    example: "0.30 EUR",
  },
} as const;
type Name = keyof typeof FIELDS;

/** Reads them from the address; what cannot be understood is left out and complained of. */
export function readYear(c: Ctx): YearAsked {
  const texts: Record<string, string> = {};
  for (const name of Object.keys(FIELDS)) {
    const text = c.req.query(name)?.trim().slice(0, 60);
    if (text) texts[name] = text;
  }
  const parsed = Asked.safeParse(texts);
  if (parsed.success) return { texts, complaints: {}, query: parsed.data };
  const wrong = [...new Set(parsed.error.issues.map(({ path }) => path[0] as Name))];
  const right = Object.fromEntries(Object.entries(texts).filter(([name]) => !wrong.includes(name as Name)));
  return {
    texts,
    complaints: Object.fromEntries(wrong.map((name) => [name, FIELDS[name].complaint])),
    query: Asked.parse(right),
  };
}

/** Said at the head of a long page, where the form is out of sight. */
export function YearWrong({ asked }: { readonly asked: YearAsked }) {
  const names = Object.fromEntries(Object.entries(FIELDS).map(([name, { label }]) => [name, label]));
  return <WrongFields asked={asked} names={names} lead="What a year costs could not be worked out:" />;
}

interface Props {
  readonly action: string;
  /** Passed on as they are. */
  readonly kept: Readonly<Record<string, string>>;
  readonly asked: YearAsked;
}

/** Asks how long it would run and what electricity costs. */
export function YearForm({ action, kept, asked }: Props) {
  return (
    <form method="get" action={action}>
      {Object.entries(kept).map(([name, value]) => (
        <input type="hidden" name={name} value={value} />
      ))}
      <div class="fields">
        {Object.entries(FIELDS).map(([name, { label, mode, example }]) => (
          <FigureField asked={asked} name={name} label={label} mode={mode} placeholder={example} />
        ))}
        <div class="field">
          <button type="submit">Work out a year</button>
        </div>
      </div>
      <p class="hint">Filters are counted by their stated price and life. The answer stands at “A year” above.</p>
    </form>
  );
}
