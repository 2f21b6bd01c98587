import type { FieldComplaint } from "./form-reader.ts";

/** What a test needs beyond its log and room before it can be published, in the order of the page. */
export function wantingForPublication(
  trial: Readonly<Record<string, unknown>>,
  fields: ReadonlyMap<string, string>,
): FieldComplaint[] {
  const wanting: FieldComplaint[] = [];
  if (trial.configuration === undefined) {
    wanting.push({ field: "configuration", detail: "Find it among those stored, or describe it." });
  }
  if (trial.interest === undefined) wanting.push({ field: "interest", detail: "Choose one: readers want to know." });
  if (trial.performed_at === undefined) wanting.push({ field: "performed_at", detail: "When was it made?" });
  if (!fields.get("key")?.trim()) {
    wanting.push({ field: "key", detail: "A key is needed: enter yours, or make a new one here." });
  }
  if (fields.get("consent") !== "yes") {
    wanting.push({ field: "consent", detail: "A test is published under CC0 1.0, or not at all: tick this to agree." });
  }
  return wanting;
}
