import { columnNorm, OrthogonalFactor } from "./orthogonal-factor.ts";
import { SingularValues } from "./singular-values.ts";

/**
 * The linear problem min ‖r + J p‖ at one point of a least-squares fit, in scaled steps q = D p, where D_j is the longest
 * that column j of J has been: a change of a parameter's unit then changes nothing (Moré 1978). J D⁻¹ = Q R and R = U S Vᵀ,
 * so every damped step is a sum over singular values: q(λ) = −Σ vᵢ sᵢ cᵢ / (sᵢ² + λ), c = Uᵀ Qᵀ r.
 */
export class TangentPlane {
  readonly #qr: OrthogonalFactor;
  readonly #svd: SingularValues;
  readonly #scaled: Float64Array;
  readonly #rotated: Float64Array;
  readonly #upper: Float64Array;
  /** sᵢ cᵢ: minus half the gradient's share along vᵢ. */
  readonly #slopes: Float64Array;
  readonly scale: Float64Array;
  /** Length of the projection of r on the tangent plane over ‖r‖: 0 at a minimum (Bates & Watts' relative offset). */
  offset = 0;

  constructor(rows: number, columns: number) {
    this.#qr = new OrthogonalFactor(rows, columns);
    this.#svd = new SingularValues(columns);
    this.#scaled = new Float64Array(rows * columns);
    this.#rotated = new Float64Array(rows);
    this.#upper = new Float64Array(columns * columns);
    this.#slopes = new Float64Array(columns);
    this.scale = new Float64Array(columns);
  }

  lay(jacobian: Float64Array, residuals: Float64Array, norm: number): void {
    const { rows, columns } = this.#qr;
    for (let j = 0; j < columns; j++) {
      const length = Math.max(this.scale[j]!, columnNorm(jacobian, rows, j)) || 1;
      this.scale[j] = length;
      for (let i = j * rows; i < (j + 1) * rows; i++) this.#scaled[i] = jacobian[i]! / length;
    }
    this.#qr.factorise(this.#scaled);
    this.#rotated.set(residuals);
    this.#qr.applyTransposed(this.#rotated);
    this.#qr.copyUpper(this.#upper);
    this.#svd.decompose(this.#upper);
    const rounding = Number.EPSILON * this.#svd.s.reduce((a, b) => Math.max(a, b));
    let along = 0;
    for (let k = 0; k < columns; k++) {
      let slope = 0;
      for (let i = 0; i < columns; i++) slope += this.#svd.us[k * columns + i]! * this.#rotated[i]!;
      // A direction the residuals do not see: what is left of it is rounding, and no step goes there.
      this.#slopes[k] = this.#svd.s[k]! > rounding ? slope : 0;
      along += this.#rotated[k]! ** 2;
    }
    this.offset = norm > 0 ? Math.sqrt(along) / norm : 0;
  }

  get inverseCondition(): number {
    return this.#svd.inverseCondition;
  }

  /** ‖q(λ)‖. */
  stepLength(lambda: number): number {
    let sum = 0;
    for (let k = 0; k < this.#slopes.length; k++) sum += this.#share(k, lambda) ** 2;
    return Math.sqrt(sum);
  }

  /**
   * The λ ≥ 0 whose step has length `radius`, to a tenth; 0 where the full Gauss-Newton step is not longer. Newton's
   * method on 1/‖q(λ)‖ − 1/radius, which is concave and nearly straight in λ and so never overshoots (Hebden, Moré).
   */
  damping(radius: number): number {
    let lambda = 0;
    for (let i = 0; i < 100; i++) {
      const length = this.stepLength(lambda);
      if (!(length > 1.1 * radius)) return lambda;
      let slope = 0;
      for (let k = 0; k < this.#slopes.length; k++) {
        const share = this.#share(k, lambda);
        if (share !== 0) slope += share ** 2 / (this.#svd.s[k]! ** 2 + lambda);
      }
      lambda += ((length - radius) / radius) * (length ** 2 / slope);
    }
    return lambda;
  }

  /** p = D⁻¹ q(λ) into `out`; returns the reduction of ‖r‖² that the plane promises, ‖J p‖² + 2λ‖q‖². */
  step(lambda: number, out: Float64Array): number {
    const size = this.#slopes.length;
    const { s, v } = this.#svd;
    let promised = 0;
    out.fill(0);
    for (let k = 0; k < size; k++) {
      const share = this.#share(k, lambda);
      promised += (s[k]! ** 2 + 2 * lambda) * share ** 2;
      for (let i = 0; i < size; i++) out[i]! -= share * v[k * size + i]!;
    }
    for (let i = 0; i < size; i++) out[i]! /= this.scale[i]!;
    return promised;
  }

  /** (JᵀJ)⁻¹ = D⁻¹ V S⁻² Vᵀ D⁻¹, symmetric. */
  inverseNormal(): Float64Array {
    const size = this.#slopes.length;
    const { s, v } = this.#svd;
    const out = new Float64Array(size * size);
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) {
        let sum = 0;
        for (let k = 0; k < size; k++) sum += (v[k * size + i]! / s[k]!) * (v[k * size + j]! / s[k]!);
        out[j * size + i] = sum / (this.scale[i]! * this.scale[j]!);
      }
    return out;
  }

  #share(k: number, lambda: number): number {
    const slope = this.#slopes[k]!;
    return slope === 0 ? 0 : slope / (this.#svd.s[k]! ** 2 + lambda);
  }
}
