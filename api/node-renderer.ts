import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { type Renderer, rendererOf } from "./pictures/renderer.ts";

const require = createRequire(import.meta.url);

/** One for the process: the module can be started once only. Fonts stand in api/, or a folder beside the build. */
export const nodeRenderer: Renderer = rendererOf(async () => {
  const wasm = readFileSync(require.resolve("@resvg/resvg-wasm/index_bg.wasm"));
  const fonts = ["regular", "semibold"].map((weight) => readFileSync(fontPath(`source-serif-4-${weight}.ttf`)));
  return { wasm, fonts };
});

function fontPath(name: string): URL {
  const places = ["./pictures/fonts/", "../api/pictures/fonts/"].map(
    (folder) => new URL(folder + name, import.meta.url),
  );
  const found = places.find((place) => existsSync(place));
  if (!found) throw new Error(`the font ${name} is missing`);
  return found;
}
