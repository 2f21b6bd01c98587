/** The form of a page as a browser without scripts holds it: the fields it would send, and what is said of each. */
export class FormOfPage {
  readonly fields = new Map<string, string>();
  readonly html: string;

  constructor(html: string) {
    this.html = html;
    const form = /<form [^>]*id="test"[\s\S]*<\/form>/.exec(html)?.[0] ?? "";
    for (const [tag] of form.matchAll(/<input [^>]*>/g)) {
      const { name, type, value = "", checked } = attributes(tag);
      if (name === undefined || type === "file") continue;
      if ((type === "radio" || type === "checkbox") && checked === undefined) continue;
      this.fields.set(name, value);
    }
    for (const [, tag = "", options = ""] of form.matchAll(/(<select [^>]*>)([\s\S]*?)<\/select>/g)) {
      const all = [...options.matchAll(/<option [^>]*>/g)].map(([option]) => attributes(option));
      const chosen = all.find(({ selected }) => selected !== undefined) ?? all[0];
      this.fields.set(attributes(tag).name!, chosen?.value ?? "");
    }
    for (const [, tag = "", text = ""] of form.matchAll(/(<textarea [^>]*>)([\s\S]*?)<\/textarea>/g)) {
      this.fields.set(attributes(tag).name!, unescaped(text));
    }
  }

  /** The complaint beside each field. */
  get complaints(): ReadonlyMap<string, string> {
    const found = this.html.matchAll(/<p class="error" id="f-([^"]*)-error"><bdi>([\s\S]*?)<\/bdi>/g);
    return new Map([...found].map(([, id = "", words = ""]) => [id, unescaped(words)]));
  }

  /** Ids that the error summary leads to, and what it says that leads nowhere. */
  get summary(): { readonly links: readonly string[]; readonly others: readonly string[] } {
    const text = /<div id="result" class="summary"[\s\S]*?<\/div>/.exec(this.html)?.[0] ?? "";
    return {
      links: [...text.matchAll(/href="#([^"]*)"/g)].map(([, id = ""]) => unescaped(id)),
      others: [...text.matchAll(/<li><bdi>([\s\S]*?)<\/bdi><\/li>/g)].map(([, words = ""]) => unescaped(words)),
    };
  }

  has(id: string): boolean {
    return this.html.includes(` id="${id}"`);
  }

  /** What a browser sends when a button is pressed: these fields, others in place of some, and files. */
  send(action: string, others: Readonly<Record<string, string | File>> = {}): FormData {
    const data = new FormData();
    for (const [name, value] of this.fields) if (!(name in others)) data.set(name, value.replaceAll(/\r?\n/g, "\r\n"));
    for (const [name, value] of Object.entries(others)) data.set(name, value);
    data.set("do", action);
    return data;
  }
}

function attributes(tag: string): Record<string, string | undefined> {
  const found = tag.matchAll(/ ([\w-]+)(?:="([^"]*)")?/g);
  return Object.fromEntries([...found].map(([, name = "", value = ""]) => [name, unescaped(value)]));
}

function unescaped(text: string): string {
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'")
    .replaceAll("&amp;", "&");
}
