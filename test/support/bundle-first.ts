import { execFileSync } from "node:child_process";
import { globSync, statSync } from "node:fs";
import { join } from "node:path";

const root = join(import.meta.dirname, "../..");

/** Before all tests: the script of the page where a test is added, made anew where a source is younger than it. */
export default function bundleFirst(): void {
  const built = statSync(join(root, ".build/submit.txt"), { throwIfNoEntry: false })?.mtimeMs ?? 0;
  const sources = globSync("{analysis,api,db}/**/*.{ts,tsx}", { cwd: root });
  const isYounger = (path: string) => (statSync(join(root, path), { throwIfNoEntry: false })?.mtimeMs ?? 0) > built;
  if (!sources.some(isYounger)) return;
  try {
    execFileSync("npm", ["run", "bundle", "-s"], { cwd: root, stdio: "inherit" });
  } catch {
    console.warn("The page's script could not be made anew: its tests see the one made before."); // all others can run
  }
}
