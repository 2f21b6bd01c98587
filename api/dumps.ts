/** A file of a dump. */
export interface DumpFile {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** A dump that is given away. */
export interface Dump {
  /** The last line of the log in it, in eight digits. */
  readonly name: string;
  readonly as_of: string | null;
  readonly as_of_seq: number;
  readonly method_version: string;
  readonly files: readonly DumpFile[];
}

/** Where dumps are found: a folder of a Node server, or an address that others serve. */
export interface Dumps {
  /** Newest first. */
  list(): Promise<readonly Dump[]>;
  /** The address of a file where others serve it; null where this server does. */
  addressOf(dump: string, file: string): string | null;
  /** A file's bytes, null where there is none of the name. */
  open(dump: string, file: string): Promise<ReadableStream<Uint8Array> | null>;
}

/** Of a registry that gives no dumps away. */
export const NO_DUMPS: Dumps = {
  list: async () => [],
  addressOf: () => null,
  open: async () => null,
};

/** Dumps that others serve: `dumps.json` at the address lists them, as `npm run dump` writes it. */
export function dumpsElsewhere(address: string): Dumps {
  const base = address.replace(/\/$/, "");
  return {
    async list() {
      const answer = await fetch(`${base}/dumps.json`);
      return answer.ok ? ((await answer.json()) as Dump[]) : [];
    },
    addressOf: (dump, file) => `${base}/${dump}/open/${encodeURIComponent(file)}`,
    open: async () => null,
  };
}
