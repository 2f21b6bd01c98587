import { make } from "./form-state.ts";
import { keep, recall } from "./kept-here.ts";

/** Says above the form, once, what was published last in this tab: for whoever goes back to it. */
export function notePublished(form: HTMLFormElement): void {
  const id = recall(NAME, "sessionStorage");
  if (id === null) return;
  keep(NAME, null, "sessionStorage");
  const link = make("a", { href: `/trials/${encodeURIComponent(id)}` }, id);
  form.before(
    make("p", { class: "published", role: "status" }, "Published as ", link, ". This form is for another test."),
  );
}

const NAME = "motefall.published";

export function rememberPublished(id: string): void {
  keep(NAME, id, "sessionStorage");
}
