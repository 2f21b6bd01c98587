/** One study's result: its value, and the variance of its own error. */
export interface Study {
  readonly value: number;
  readonly variance: number;
}

/** What a random-effects model says of the studies' common mean. */
export interface RandomEffects {
  readonly value: number;
  /** 1/√Σw, the standard uncertainty where τ² is taken as known. */
  readonly u: number;
  /** Σw(y − μ)²/(k − 1), the factor on u² by Knapp and Hartung; 1 with one study. */
  readonly q: number;
  /** What each study weighs in the mean; they add up to 1. */
  readonly weights: readonly number[];
}

/**
 * Weighted mean μ = Σwy/Σw with w = 1/(v + τ²) of studies that differ by a variance τ² beyond their own v. τ² = 0 is the
 * equal-effects model. DerSimonian and Laird 1986, Control. Clin. Trials 7:177; q: Knapp and Hartung 2003, Stat. Med.
 * 22:2693. An interval by q uses u·√max(1, q) and t at k − 1: a q below 1 by luck would narrow it.
 * @throws RangeError without studies
 */
export function randomEffects(studies: readonly Study[], tau2: number): RandomEffects {
  const raw = studies.map(({ variance }) => 1 / (variance + tau2));
  const sum = raw.reduce((a, b) => a + b, 0);
  if (!(sum > 0 && sum < Infinity)) throw new RangeError("a mean needs studies with variances above 0");
  const weights = raw.map((w) => w / sum);
  const value = studies.reduce((mean, study, i) => mean + weights[i]! * study.value, 0);
  const scatter = studies.reduce((total, study, i) => total + raw[i]! * (study.value - value) ** 2, 0);
  const q = studies.length === 1 ? 1 : scatter / (studies.length - 1);
  return { value, u: 1 / Math.sqrt(sum), q, weights };
}

/** Q = Σ(y − μ)²/v about the equal-effects mean, χ² with k − 1 dof where the studies do not differ. Cochran 1954. */
export function cochranQ(studies: readonly Study[]): number {
  return randomEffects(studies, 0).q * (studies.length - 1);
}

/**
 * I² = τ²/(τ² + s²): the share of the studies' scatter that their own errors do not explain, s² = (k−1)Σw/((Σw)² − Σw²)
 * with w = 1/v being their typical variance. Higgins and Thompson 2002, Stat. Med. 21:1539. For two studies or more.
 */
export function shareBetween(studies: readonly Study[], tau2: number): number {
  const w = studies.map(({ variance }) => 1 / variance);
  const sum = w.reduce((a, b) => a + b, 0);
  const squares = w.reduce((a, b) => a + b * b, 0);
  const typical = ((studies.length - 1) * sum) / (sum * sum - squares);
  return tau2 / (tau2 + typical);
}
