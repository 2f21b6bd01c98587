import type { ConfigurationView } from "../../view-configuration-whole.ts";

/** Who described it and when, when its words were revised, and what was found to be the same thing. */
export function WhoDescribed({ view }: { readonly view: ConfigurationView }) {
  const { submitter, created_at: createdAt, revised_at: revised, revision, merged_from: merged } = view;
  return (
    <>
      Described by <bdi>{submitter.handle ?? submitter.id}</bdi> on {createdAt.slice(0, 10)}
      {revised.length > 0 && `; its words as revised on ${revised.at(-1)!.slice(0, 10)} (revision ${revision})`}.
      {merged.map(({ id, at, reason }) => (
        <>
          {" "}
          {`${id} was found to be the same thing on ${at.slice(0, 10)} and merged into it: `}
          <bdi>{reason}</bdi>.
        </>
      ))}
    </>
  );
}
