import { scaleLinear } from "d3-scale";
import type { LeaderboardOut, RankedEntry } from "../../wire/leaderboard.ts";
import type { SoundOut } from "../../wire/sound.ts";
import { CleanerTitle } from "../cleaner-name.tsx";
import { figures, unitWords } from "../figures.ts";
import { Quantity, Sound } from "../quantity.tsx";
import { BottomAxis, LeftAxis } from "./axes.tsx";
import { Chart, round, type Size } from "./chart.tsx";
import { placeNames } from "./place-names.ts";
import { shownEnds } from "./shown-ends.ts";

type Rated = RankedEntry & { readonly noise: SoundOut };

/** Clean air delivery rate against noise at 1 m of the rows of a page, both with their 95 % intervals, and who is on the frontier. */
export function NoiseChart({ board }: { readonly board: LeaderboardOut }) {
  const rated = board.entries.filter((entry): entry is Rated => entry.noise !== null);
  if (rated.length === 0) return <p>No noise at 1 m was measured of any of these, so there is no chart of it.</p>;
  const ends = shownEnds(rated.map(({ cadr }) => cadr));
  const over = rated.filter(({ cadr }) => cadr.value > ends.high).length;
  const unrated = board.entries.length - rated.length;
  const unit = unitWords(board.unit);
  return (
    <Chart
      id="noise"
      title={`Clean air delivery rate against noise of ${rated.length} results`}
      description={`Noise at 1 m in dB(A) to the right, clean air delivery rate in ${unit} upwards, both with 95 % intervals. The figures stand in the table below.`}
      heights={[440, 400]}
      left={[52, 40]}
      draw={(size) => <Drawing size={size} rated={rated} ends={ends} unit={unit} />}
      caption={
        <>
          Towards the upper left a cleaner is stronger and quieter. Lines are 95 % intervals; an arrow means that the
          noise is known only to stay under the mark. Round: home-made, square: commercial. Filled: on the frontier,
          which means that of all {board.shown} listed none with a known noise is both quieter and stronger beyond the
          95 % intervals, its own and theirs. Numbers are ranks; where they would cover each other some are left out.
          {over > 0 &&
            ` ${over === 1 ? "One reaches" : `${over} reach`} far above the scale, which is made for the others: an arrow leads there and the figure stands in brackets.`}
          {unrated > 0 &&
            ` ${unrated} of this page without a measured noise ${unrated === 1 ? "is" : "are"} not drawn.`}
        </>
      }
      table={<Figures rated={rated} unit={unit} />}
    />
  );
}

interface Drawn {
  readonly size: Size;
  readonly rated: readonly Rated[];
  /** Of clean air, as far as it is drawn. */
  readonly ends: { readonly low: number; readonly high: number };
  readonly unit: string;
}

function Drawing({ size, rated, ends, unit }: Drawn) {
  const { width, height, margin } = size;
  const within = { left: margin.left, right: width - margin.right, top: margin.top, bottom: height - margin.bottom };
  const levels = rated.flatMap(({ noise }) => (noise.value === null ? [noise.high] : [noise.low, noise.high]));
  const x = scaleLinear([Math.min(...levels) - 2, Math.max(...levels) + 2], [within.left, within.right]);
  const y = scaleLinear([ends.low, ends.high], [within.bottom, within.top + 18]).nice(5);
  const [least, most] = y.domain() as [number, number];
  const points = rated.map((entry) => {
    const { rank, cadr, noise } = entry;
    const isOver = cadr.value > most;
    return {
      entry,
      name: isOver ? `${rank} (${figures(cadr.value, (cadr.high - cadr.low) / 2).value})` : String(rank),
      x: round(x(noise.value ?? noise.high)),
      y: isOver ? within.top + 8 : round(y(Math.max(cadr.value, least))),
    };
  });
  const marksOf = (kind: RankedEntry["configuration"]["kind"], frontier: boolean) =>
    points
      .filter(({ entry }) => entry.configuration.kind === kind && (entry.frontier === true) === frontier)
      .map((at) => (kind === "commercial" ? square(at) : circle(at)))
      .join("");
  const bars = (frontier: boolean) =>
    points
      .filter(({ entry }) => (entry.frontier === true) === frontier)
      .map(({ entry: { cadr, noise }, ...at }) => {
        const foot = round(y(Math.min(Math.max(cadr.low, least), most)));
        const upright = `M${at.x} ${foot}${cadr.high > most ? upwards(within.top) : `V${round(y(cadr.high))}`}`;
        return upright + (noise.value === null ? arrow(at) : `M${round(x(noise.low))} ${at.y}H${round(x(noise.high))}`);
      })
      .join("");
  return (
    <>
      <LeftAxis size={size} y={y} ticks={y.ticks(5)} />
      <text x="0" y="12">{`clean air, ${unit}`}</text>
      <BottomAxis size={size} x={x} ticks={x.ticks(size.name === "wide" ? 8 : 5)} words="noise at 1 m, dB(A)" />
      <path class="whisker" d={bars(false)} />
      <path class="whisker whisker-first" d={bars(true)} />
      {[false, true].map((frontier) => (
        <path
          class={frontier ? "cleaner-mark cleaner-mark-first" : "cleaner-mark"}
          d={marksOf("user_built", frontier) + marksOf("commercial", frontier)}
        />
      ))}
      {placeNames(points, within).map(({ name, x: left, y: foot, anchor }) => (
        <text class="name halo" x={left} y={foot} text-anchor={anchor}>
          {name}
        </text>
      ))}
    </>
  );
}

interface At {
  readonly x: number;
  readonly y: number;
}

const circle = ({ x, y }: At) => `M${round(x - 4.5)} ${y}a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0-9 0z`;
const square = ({ x, y }: At) => `M${round(x - 4)} ${round(y - 4)}h8v8h-8z`;
/** Up to the edge of the plot and on beyond it. */
const upwards = (top: number) => `V${top - 8}m-4 6l4-6l4 6`;
/** From a bound towards the quieter side. */
const arrow = ({ x, y }: At) => `M${x} ${y}h-26m6-4l-6 4l6 4`;

function Figures({ rated, unit }: { rated: readonly Rated[]; unit: string }) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col" class="number">
            Rank
          </th>
          <th scope="col">Cleaner</th>
          <th scope="col" class="number">
            Clean air, {unit}
          </th>
          <th scope="col" class="number">
            Noise at 1 m, dB(A)
          </th>
          <th scope="col">On the frontier</th>
        </tr>
      </thead>
      <tbody>
        {rated.map(({ rank, configuration, setting, cadr, noise, frontier }) => (
          <tr>
            <td class="number">{rank}</td>
            <td>
              <CleanerTitle title={configuration.title} setting={setting} />
            </td>
            <td class="number">
              <Quantity of={cadr} bare />
            </td>
            <td class="number">
              <Sound of={noise} bare />
            </td>
            <td>{frontier ? "yes" : "no"}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
