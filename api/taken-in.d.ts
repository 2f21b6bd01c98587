/** Text that the build takes in as it stands. */
declare module "*.txt" {
  const text: string;
  export default text;
}

/** A module of machine code, compiled by the Worker's platform. */
declare module "*.wasm" {
  const module: WebAssembly.Module;
  export default module;
}

/** A font, as bytes. */
declare module "*.ttf" {
  const bytes: ArrayBuffer;
  export default bytes;
}
