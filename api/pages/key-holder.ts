import { holderOf } from "../caller.ts";
import type { Dependencies } from "../environment.ts";
import { RequestError } from "../problem.ts";

export type Holder = { readonly actor: string } | { readonly wrong: string };

/** Whose key a form was sent with, if that one is the submitter or the operator, or why not: in words to stand beside the field. */
export async function keyHolder(deps: Dependencies, sent: string | undefined, submitter: string): Promise<Holder> {
  const key = sent?.replaceAll(/\s+/g, "") ?? "";
  if (key === "") return { wrong: "The key that the test was published with is needed." };
  try {
    const holder = await holderOf(deps, key);
    if (holder.kind === "operator") return { actor: "operator" };
    if (holder.kind === "submitter" && holder.submitter === submitter) return { actor: submitter };
    return { wrong: "This test was published with another key." };
  } catch (error) {
    if (error instanceof RequestError) return { wrong: error.message };
    throw error;
  }
}
