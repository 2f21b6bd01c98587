import type { Size } from "./chart.tsx";
import { round } from "./chart.tsx";
import { evenTicks, type Scale } from "./scales.ts";

/** Marks along the bottom, the words of the axis below them. */
export function BottomAxis(it: { size: Size; x: Scale; ticks: readonly number[]; words: string; grid?: boolean }) {
  const { width, height, margin } = it.size;
  const foot = height - margin.bottom;
  return (
    <g>
      <path class="axis-line" d={`M${margin.left} ${foot}H${width - margin.right}`} />
      {it.ticks.map((tick) => (
        <g>
          <path class="axis" d={`M${round(it.x(tick))} ${it.grid ? margin.top : foot}V${foot + 5}`} />
          <text x={round(it.x(tick))} y={foot + 19} text-anchor="middle">
            {tickWords(tick)}
          </text>
        </g>
      ))}
      <text x={(margin.left + width - margin.right) / 2} y={height - 6} text-anchor="middle">
        {it.words}
      </text>
    </g>
  );
}

/** Marks along the left side with lines across the plot; the words of the axis above it, where they need not be turned. */
export function LeftAxis(it: { size: Size; y: Scale; ticks: readonly number[]; words?: string }) {
  const { width, margin } = it.size;
  return (
    <g>
      {it.words && (
        <text class="axis-words" x={2} y={margin.top - 14}>
          {it.words}
        </text>
      )}
      {it.ticks.map((tick) => (
        <g>
          <path class="axis" d={`M${margin.left} ${round(it.y(tick))}H${width - margin.right}`} />
          <text x={margin.left - 8} y={round(it.y(tick)) + 4} text-anchor="end">
            {tickWords(tick)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** A mark's number: powers of ten where it is very large or small, a real minus sign. */
export function tickWords(value: number): string {
  if (value === 0) return "0";
  const size = Math.abs(value);
  const text =
    size >= 100_000 || size < 0.001
      ? Number(value.toPrecision(3)).toExponential().replace("e+", "e")
      : String(Number(value.toPrecision(3)));
  return text.replace("-", "−");
}

/** Levels to mark on a logarithmic axis: powers of ten, with 2 and 5 between them, or even steps where the range is short. */
export function logTicks([low, high]: readonly [number, number]): number[] {
  if (high / low < 5) return evenTicks([low, high], 5).filter((level) => level > 0);
  const steps = high / low < 100 ? [1, 2, 5] : [1];
  const found: number[] = [];
  for (let power = Math.floor(Math.log10(low)); power <= Math.ceil(Math.log10(high)); power++) {
    for (const step of steps) found.push(step * 10 ** power);
  }
  return found.filter((level) => level >= low && level <= high);
}
