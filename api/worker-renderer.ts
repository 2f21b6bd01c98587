import wasm from "@resvg/resvg-wasm/index_bg.wasm";
import regular from "./pictures/fonts/source-serif-4-regular.ttf";
import semibold from "./pictures/fonts/source-serif-4-semibold.ttf";
import { type Renderer, rendererOf } from "./pictures/renderer.ts";

/** One for the isolate: the module can be started once only. */
export const workerRenderer: Renderer = rendererOf(async () => ({
  wasm,
  fonts: [regular, semibold].map((font) => new Uint8Array(font)),
}));
