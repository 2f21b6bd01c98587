import { join } from "node:path";
import { build } from "esbuild";

const root = join(import.meta.dirname, "../..");

/** A module of the browser's script by itself, bundled and minified as the script is. */
export async function browserModule(name: string): Promise<string> {
  return (await bundled(name)).text;
}

/** The project's files that a module of the browser's script takes in, those of packages among them. */
export async function modulesOf(name: string): Promise<string[]> {
  return (await bundled(name)).modules;
}

async function bundled(name: string): Promise<{ text: string; modules: string[] }> {
  const { outputFiles, metafile } = await build({
    entryPoints: [join(root, "api/browser", name)],
    bundle: true,
    minify: true,
    format: "esm",
    target: "es2022",
    jsx: "automatic",
    jsxImportSource: "hono/jsx",
    alias: { "hono/jsx/jsx-runtime": join(root, "api/browser/html-runtime.ts") },
    absWorkingDir: root,
    metafile: true,
    write: false,
  });
  const [output] = Object.values(metafile.outputs);
  const modules = Object.entries(output!.inputs).filter(([, { bytesInOutput }]) => bytesInOutput > 0);
  return { text: outputFiles[0]!.text, modules: modules.map(([path]) => path) };
}
