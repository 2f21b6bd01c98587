import { KIND_WORDS } from "./leaderboard/filter-words.ts";

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
        <bdi>{configuration.title}</bdi>
        {setting !== "" && (
          <>
            , <bdi>{setting}</bdi>
          </>
        )}
      </a>
      <KindLine kind={configuration.kind} invented={invented} />
    </>
  );
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
