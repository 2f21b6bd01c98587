import { KIND_WORDS } from "./kind-words.ts";

interface Props {
  readonly entry: {
    readonly configuration: { readonly id: string; readonly title: string; readonly kind: keyof typeof KIND_WORDS };
    readonly setting: string;
    readonly invented: boolean;
  };
  readonly band: string;
  /** Of the link, so that a control beside it can be named by it. */
  readonly id?: string;
}

/** A cleaner at a setting as the head of a row, leading to its page; its kind, and whether it is invented, below. */
export function CleanerName({ entry: { configuration, setting, invented }, band, id }: Props) {
  return (
    <>
      <a id={id} href={`/configurations/${configuration.id}?${new URLSearchParams({ setting, band })}`}>
        <CleanerTitle title={configuration.title} setting={setting} />
      </a>
      <KindLine kind={configuration.kind} invented={invented} />
    </>
  );
}

/** A cleaner with its setting; one that runs in one way only has none. */
export function CleanerTitle({ title, setting }: { readonly title: string; readonly setting: string }) {
  return (
    <>
      <bdi>{title}</bdi>
      {setting !== "" && (
        <>
          , <bdi>{setting}</bdi>
        </>
      )}
    </>
  );
}

/** The same as plain text. */
export function cleanerWords(title: string, setting: string): string {
  return setting === "" ? title : `${title}, ${setting}`;
}

export function KindLine({ kind, invented }: { kind: keyof typeof KIND_WORDS; invented: boolean }) {
  return (
    <small class="line">
      {KIND_WORDS[kind]}
      {invented && (
        <>
          {" · "}
          <em>invented</em>
        </>
      )}
    </small>
  );
}
