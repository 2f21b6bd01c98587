import type { Compared, ComparisonOut } from "../../wire/comparison.ts";

type Pair = ComparisonOut["pairs"][number];

/** What the interval of a difference does and does not tell. */
export function differenceWords({ difference }: Pick<Pair, "difference">, a: string, b: string): string {
  if (difference === null) return "Cannot be told: of one of them no test counts at present.";
  const { low, high } = difference;
  if (low > 0) return `The interval lies above 0: at 95\u00a0%, ${a} cleans more air than ${b}.`;
  if (high < 0) return `The interval lies below 0: at 95\u00a0%, ${b} cleans more air than ${a}.`;
  return "The interval holds 0: these tests do not tell which of them cleans more air.";
}

/** A probability as so many cases in a hundred, told of the one that is the likelier. */
export function chanceWords(pStronger: number | null, a: string, b: string): string {
  if (pStronger === null) return "Cannot be told.";
  const [likelier, p] = pStronger >= 0.5 ? [a, pStronger] : [b, 1 - pStronger];
  if (Math.round(100 * p) === 50) return `As likely the one as the other: 50 times in 100.`;
  const times = p >= 0.995 ? "more than 99 times in 100" : `about ${Math.round(100 * p)} times in 100`;
  return `By these tests ${likelier} is the stronger ${times}.`;
}

export function roomWords(pairedRooms: number): string {
  if (pairedRooms === 0) {
    return "Never tested in the same room, so the errors of the rooms’ volumes stay in the difference. A test of both in one room would tell more.";
  }
  const where = pairedRooms === 1 ? "one room" : `each of ${pairedRooms} rooms`;
  return `Both were tested in ${where}. An error of a shared room’s volume is the same share of both figures, so that most of it cancels in the difference.`;
}

export function noiseWords(pair: Pick<Pair, "noise_difference">, a: string, b: string): string {
  const difference = pair.noise_difference;
  if (difference === null) return "Cannot be told: of one of them no level is known, or only one that it stays under.";
  if (difference.low > 0) return `The interval lies above 0: at 95\u00a0%, ${a} is the louder.`;
  if (difference.high < 0) return `The interval lies below 0: at 95\u00a0%, ${b} is the louder.`;
  return "The interval holds 0: which is the louder cannot be told.";
}

export function powerWords(
  { power_difference: difference }: Pick<Pair, "power_difference">,
  a: string,
  b: string,
): string {
  if (difference === null) return "Cannot be told: of one of them the power was not measured.";
  if (difference.low > 0) return `The interval lies above 0: at 95\u00a0%, ${a} takes more.`;
  if (difference.high < 0) return `The interval lies below 0: at 95\u00a0%, ${b} takes more.`;
  return "The interval holds 0: which takes more cannot be told.";
}

/** Prices are stated and not measured: they differ or do not, and nothing tells how surely. */
export function priceWords(one: Compared["cost"], other: Compared["cost"], a: string, b: string): string {
  const [mine, theirs] = [one, other].map((cost) => cost && `${money(cost.value)} ${cost.currency}`);
  if (!one || !other) return `Cannot be told: no price is stated of ${!one && !other ? "either" : one ? b : a}.`;
  if (one.currency !== other.currency) return `${mine} against ${theirs}: money is not converted.`;
  if (one.value === other.value) return `${mine} each, as stated.`;
  const [dearer, apart] = one.value > other.value ? [a, one.value - other.value] : [b, other.value - one.value];
  return `${mine} against ${theirs}: ${dearer} is dearer by ${money(apart)} ${one.currency}, as stated; a price has no interval.`;
}

function money(value: number): string {
  return Number.isInteger(value) ? String(value) : value.toFixed(2);
}
