import { addColumn, type FittedShape } from "./added-column.ts";
import { scoreTestP } from "./score-test.ts";

export interface Curvature {
  /** Mean rate of the window's first half less that of its second, k₁ − k₂ [1/h]. */
  readonly halvesApartPerH: number;
  /** Probability of so much by chance, either way. */
  readonly p: number;
}

/**
 * Whether k itself drifts: ln(C − B) gains c·t², the rate is k − 2ct, and the halves of a window T differ by k₁ − k₂ = cT.
 * Of all ways to look for a drift this test of one added column loses least; comparing halves fitted apart finds fewer at as
 * many false alarms, for each half gives up its own level. A background yet to be known is beside it and is no curvature.
 */
export function decayCurvature(shape: FittedShape, windowH: number, dof: number): Curvature | null {
  const bend = addColumn(shape, (t) => t * t);
  return bend && { halvesApartPerH: bend.value * windowH, p: 2 * scoreTestP(bend, dof) };
}
