import { type InitInput, initWasm, Resvg } from "@resvg/resvg-wasm";

/** Makes a PNG of an SVG, with the bundled fonts and no others, so that a picture is the same wherever it is made. */
export type Renderer = (svg: string) => Promise<Uint8Array>;

/** @param load the module and the fonts, asked for once, when the first picture is */
export function rendererOf(load: () => Promise<{ wasm: InitInput; fonts: Uint8Array[] }>): Renderer {
  let ready: Promise<Uint8Array[]> | null = null;
  const start = async () => {
    const { wasm, fonts } = await load();
    await initWasm(wasm);
    return fonts;
  };
  return async (svg) => {
    ready ??= start();
    const fontBuffers = await ready;
    const font = { fontBuffers, loadSystemFonts: false, defaultFontFamily: "Source Serif 4" };
    return new Resvg(svg, { font }).render().asPng();
  };
}
