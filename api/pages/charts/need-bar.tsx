import type { RowScale } from "./interval-bar.tsx";

interface Interval {
  readonly low: number;
  readonly value: number;
  readonly high: number;
}

/** What a set delivers against what is needed: its interval as a bar, the need as an upright line over all rows. */
export function NeedBar({ scale, need, delivers }: { scale: RowScale; need: number; delivers: Interval }) {
  const { at } = scale;
  return (
    <svg class="bar" width="100%" height="16" aria-hidden="true">
      <use href="#scale-lines" />
      <line class="interval" x1={at(delivers.low)} x2={at(delivers.high)} y1="8" y2="8" />
      <line class="centre" x1={at(delivers.value)} x2={at(delivers.value)} y1="2" y2="14" />
      <line class="need" x1={at(need)} x2={at(need)} y1="0" y2="16" />
    </svg>
  );
}
