import type { Child } from "hono/jsx";
import { parseUnit } from "../../analysis/units.ts";
import type { SoundOut } from "../wire/sound.ts";
import { between, figures, plusMinus, range, unitWords } from "./figures.ts";

/** What pages need of a quantity: its value and 95 % interval in the unit named. */
export interface Shown {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
}

/** A quantity in another unit of the same dimension. */
export function inUnit({ value, low, high, unit }: Shown, wanted: string): Shown {
  const [from, to] = [parseUnit(unit), parseUnit(wanted)];
  const turned = (x: number) => to.fromBase(from.toBase(x));
  return { value: turned(value), low: turned(low), high: turned(high), unit: to.code };
}

/**
 * `601 ± 31 m³/h`, or `880 (760 to 1030) m³/h` where the interval is not symmetric: U to two digits, the value to match.
 * `bare` leaves the unit to the head of a column. Where there is nothing to show, `missing` says why.
 */
export function Quantity(it: { of: Shown | null; bare?: boolean; missing?: string; ranged?: boolean }) {
  if (it.of === null) return <Missing why={it.missing ?? "not known"} />;
  const text = it.ranged ? range(it.of) : figureText(it.of);
  return <span class="q">{it.bare ? text : `${text} ${unitWords(it.of.unit)}`}</span>;
}

/** Value and interval as `<Quantity>` shows them, without the unit. */
export function figureText(of: Pick<Shown, "value" | "low" | "high">): string {
  return isSkewed(of) ? range(of) : plusMinus(of);
}

/** Ends that stand unevenly about the value by more than what two digits of U show. */
function isSkewed({ value, low, high }: Pick<Shown, "value" | "low" | "high">): boolean {
  return Math.abs(high + low - 2 * value) > 0.05 * (high - low);
}

/** `170 to 320 m³/h`: where something is expected, with no best value. */
export function Between({ of }: { of: Pick<Shown, "low" | "high" | "unit"> }) {
  return <span class="q">{`${between(of)} ${unitWords(of.unit)}`}</span>;
}

/** A sound pressure level, or the bound it stays under. */
export function Sound(it: { of: SoundOut | null; bare?: boolean; missing?: string }) {
  if (it.of === null) return <Missing why={it.missing ?? "not measured"} />;
  const unit = it.bare ? "" : " dB(A)";
  if (it.of.value !== null) return <span class="q">{plusMinus(it.of) + unit}</span>;
  return <span class="q">{`under ${figures(it.of.high, 1).value}${unit}`}</span>;
}

/** A price as it was stated on a day; prices have no interval. */
export function Money(it: { of: { value: number; currency: string; date?: string } | null; missing?: string }) {
  if (it.of === null) return <Missing why={it.missing ?? "not stated"} />;
  const { value, currency, date } = it.of;
  return (
    <span class="q" title={date ? `as stated on ${date}` : undefined}>
      {`${Number.isInteger(value) ? value : value.toFixed(2)} ${currency}`}
    </span>
  );
}

/** Why a figure is not there. */
export function Missing({ why }: { readonly why: Child }) {
  return <small class="missing">{why}</small>;
}
