import type { App } from "./endpoint.ts";

/** The methods that a path takes, empty where there is no such path: what a 405 answers under Allow (RFC 9110 15.5.6). */
export function allowedMethods(app: App, path: string): string[] {
  const trimmed = path.length > 1 ? path.replace(/\/$/, "") : path;
  const methods = new Set<string>();
  for (const route of app.routes) {
    if (route.method !== "ALL" && fits(route.path, trimmed)) methods.add(route.method);
  }
  if (methods.has("GET")) methods.add("HEAD");
  if (methods.size > 0) methods.add("OPTIONS");
  return [...methods].sort();
}

function fits(pattern: string, path: string): boolean {
  const names = pattern.split("/");
  const parts = path.split("/");
  return (
    names.length === parts.length &&
    names.every((name, i) => (name.startsWith(":") ? parts[i] !== "" : name === parts[i]))
  );
}
