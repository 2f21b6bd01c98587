import { DESCRIBED, type FieldName, MOST_PARTS } from "./form-fields.ts";

/** What of a stored configuration makes it that one and no other, as its record has it. */
interface Stored {
  readonly title: string;
  readonly kind: string;
  readonly maker?: string;
  readonly model?: string;
  readonly arrangement?: string;
  readonly parts: readonly {
    readonly part: string;
    readonly count: number;
    readonly description?: string;
    readonly size?: string;
    readonly stated_flow?: { readonly value: number; readonly unit: string };
    readonly filter_grade?: { readonly system: string; readonly grade: string };
  }[];
}

/**
 * Describes a stored configuration in the form, so that a test of it at a setting that it has not got yet can be added: the same
 * parts are the same configuration. What the form held of another description goes.
 */
export function describeStored(json: string, fields: Map<string, string>): void {
  const { parts, ...words } = JSON.parse(json) as Stored;
  for (const name of [...fields.keys()]) {
    if (/^described\.(parts|cost$|plan|derived|setting$|setting_flow$)/.test(name)) fields.delete(name);
  }
  const put = (name: FieldName, value: string | number | undefined) => fields.set(name, String(value ?? ""));
  put("configuration", DESCRIBED);
  for (const name of ["title", "kind", "maker", "model", "arrangement"] as const) put(`described.${name}`, words[name]);
  for (const [n, part] of parts.slice(0, MOST_PARTS).entries()) {
    const at = `described.parts.${n}` as const;
    for (const name of ["part", "count", "description", "size"] as const) put(`${at}.${name}`, part[name]);
    put(`${at}.flow`, part.stated_flow?.value);
    if (part.stated_flow) put(`${at}.flow_unit`, part.stated_flow.unit);
    put(`${at}.grade`, part.filter_grade?.grade);
    if (part.filter_grade) put(`${at}.grade_system`, part.filter_grade.system);
  }
}
