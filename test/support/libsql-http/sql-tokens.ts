/** What the engine does not tell about a text: its verb, its parameters in binding order, whether a second statement follows. */
export function readSqlTokens(sql: string) {
  const parameters: (string | undefined)[] = [];
  let verb: string | undefined;
  let depth = 0;
  let hasEnded = false;
  let hasTail = false;
  let isTrigger = false; // its body holds semicolons of its own
  for (const [token] of sql.matchAll(tokenPattern)) {
    if (/^(\s|--|\/\*)/.test(token)) continue;
    // Bodies of common table expressions stand in brackets, so the verb behind a WITH is the first one outside of them.
    if (verb === undefined || (verb === "with" && depth === 0 && mainVerb.test(token))) verb = token.toLowerCase();
    if (verb === "create" && /^trigger$/i.test(token)) isTrigger = true;
    if (token === "(") depth++;
    else if (token === ")") depth--;
    else if (token === ";") hasEnded = true;
    else if (token === "?") parameters.push(undefined);
    else if (/^\?\d/.test(token)) placeNumbered(parameters, token);
    else if (/^[:@$]\w/.test(token) && !parameters.includes(token)) parameters.push(token);
    if (hasEnded && token !== ";") hasTail = true;
  }
  return { verb, parameters, hasTail: hasTail && !isTrigger };
}

function placeNumbered(parameters: (string | undefined)[], token: string) {
  const index = Number(token.slice(1)) - 1;
  while (parameters.length < index) parameters.push(undefined);
  parameters[index] = token;
}

const mainVerb = /^(select|values|insert|replace|update|delete)$/i;

/** Strings, quoted names, comments, parameters, words, blanks, then any single sign. https://sqlite.org/lang_expr.html#varparam */
const tokenPattern =
  /'(?:[^']|'')*'|"(?:[^"]|"")*"|`[^`]*`|\[[^\]]*\]|--[^\n]*|\/\*[\s\S]*?\*\/|\?\d*|[:@$]\w+|\w+|\s+|[\s\S]/g;
