import type { Child } from "hono/jsx";

type About = keyof typeof SHORT;

/** The few cautions that belong beside what is being done; the Safety page says the rest. */
export function SafetyShort({ about }: { readonly about: About }) {
  const { title, said, anchor } = SHORT[about];
  return (
    <aside class="caution" aria-label={title}>
      <p>
        <b>{title}.</b> {said} Local codes and licensed trades come first.{" "}
        <a href={`/safety#${anchor}`}>More on safety</a>
      </p>
    </aside>
  );
}

/** One line of it, for pages that tell of tests without leading through one. */
export function SafetyLine() {
  return (
    <p class="safety-line unprinted">
      Before you fill a room with particles: anything hot or smouldering can start a fire and makes carbon monoxide, and
      neither it nor a taped fan is left alone. <a href="/safety#aerosol">Safety</a>
    </p>
  );
}

const SHORT: Record<"smoke" | "fan" | "noise", { title: string; said: Child; anchor: string }> = {
  smoke: {
    title: "While making a test aerosol",
    said:
      "Anything hot or smouldering can start a fire and is bad to breathe, and in a sealed room it makes carbon " +
      "monoxide. Stay with it, keep it away from the filters and the way out clear, leave smoke alarms on, and let " +
      "nobody with asthma into the room. Salt mist is milder; keep the wet nebuliser away from mains.",
    anchor: "aerosol",
  },
  fan: {
    title: "While building or running a fan with filters",
    said:
      "Never leave a filter-taped fan running unattended. Use only a fan with a fused plug, and change nothing in its " +
      "motor or speed control. Unplug it to change filters; loaded ones want a respirator, gloves and a bag.",
    anchor: "fan",
  },
  noise: {
    title: "Where it is loud",
    said: (
      <>
        The NIOSH limit is 85 dB(A) over 8 hours, and each 3 dB more halves the time: 94 dB(A) leaves 1 hour. Count the
        other machines in the room too.
      </>
    ),
    anchor: "noise",
  },
};
