import { channelWords } from "./channel-words.ts";
import { Chart } from "./chart.tsx";
import type { DecayDrawing } from "./decay-drawing.ts";
import { DECAY_SIZE, decayPlot } from "./decay-plot.tsx";
import { DecayTable } from "./decay-table.tsx";

/**
 * One run's readings on a logarithmic axis over minutes after its first row, the windows that were fitted, the fits over them,
 * their background, the marks, and what was left out. Each drawing's group carries data-left, data-right, data-top and
 * data-bottom (its plot in pixels) and data-from, data-to (minutes at its left and right edge).
 *
 * Nothing imported here needs a server: the page where a test is added draws its preview in the browser by the same code.
 */
export function DecayChart(drawing: DecayDrawing) {
  const { id, channel } = drawing;
  const plot = decayPlot(drawing);
  if (plot === null) return <p class="quiet">No reading of {channelWords(channel)} lies above zero.</p>;
  const { title, description, draw, legend, use } = plot;
  return (
    <Chart
      id={id}
      title={title}
      description={description}
      {...DECAY_SIZE}
      draw={(size) => draw(size)}
      caption={
        <>
          Dots: <bdi>{channelWords(channel)}</bdi>. {legend}
        </>
      }
      table={<DecayTable {...drawing} shown={use} />}
    />
  );
}
