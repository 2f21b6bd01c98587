import { scaleLinear } from "d3-scale";

const WIDTH = 220;
const HEIGHT = 18;

/** A 95 % interval as a bar on a scale shared by all rows of a table, from 0 to the largest upper end. */
export function IntervalBar({ low, value, high, most }: { low: number; value: number; high: number; most: number }) {
  const x = scaleLinear([Math.min(0, low), most], [2, WIDTH - 2]).clamp(true);
  return (
    <svg width={WIDTH} height={HEIGHT} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      <line class="axis" x1={x(0)} x2={x(0)} y1="1" y2={HEIGHT - 1} />
      <line class="interval" x1={x(low)} x2={x(high)} y1={HEIGHT / 2} y2={HEIGHT / 2} />
      <line class="centre" x1={x(value)} x2={x(value)} y1="3" y2={HEIGHT - 3} />
    </svg>
  );
}
