/**
 * Singular values of a small square matrix A = U S Vᵀ by one-sided Jacobi rotations: the columns of A are turned until
 * they are orthogonal; then A V = U S. Small singular values keep their relative accuracy, which a scaled but nearly
 * dependent Jacobian needs. Golub & Van Loan, Matrix Computations, 8.6. Column-major; buffers are used again.
 */
export class SingularValues {
  readonly size: number;
  /** U S, column by column. */
  readonly us: Float64Array;
  readonly v: Float64Array;
  readonly s: Float64Array;

  constructor(size: number) {
    this.size = size;
    this.us = new Float64Array(size * size);
    this.v = new Float64Array(size * size);
    this.s = new Float64Array(size);
  }

  decompose(a: Float64Array): void {
    const { size, us, v, s } = this;
    us.set(a);
    v.fill(0);
    for (let j = 0; j < size; j++) v[j * size + j] = 1;
    for (let sweep = 0; sweep < MAX_SWEEPS; sweep++) {
      let turned = false;
      for (let p = 0; p < size - 1; p++) for (let q = p + 1; q < size; q++) if (this.#turn(p, q)) turned = true;
      if (!turned) break;
    }
    for (let j = 0; j < size; j++) s[j] = Math.sqrt(dot(us, size, j, j));
  }

  /** Smallest singular value over the largest; 0 where the matrix is zero. */
  get inverseCondition(): number {
    let low = Number.POSITIVE_INFINITY;
    let high = 0;
    for (const value of this.s) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    return high > 0 ? low / high : 0;
  }

  #turn(p: number, q: number): boolean {
    const { size, us, v } = this;
    const pp = dot(us, size, p, p);
    const qq = dot(us, size, q, q);
    const pq = dot(us, size, p, q);
    if (Math.abs(pq) <= Number.EPSILON * Math.sqrt(pp * qq)) return false;
    const zeta = (qq - pp) / (2 * pq);
    const tangent = (zeta < 0 ? -1 : 1) / (Math.abs(zeta) + Math.hypot(1, zeta));
    const cosine = 1 / Math.hypot(1, tangent);
    rotate(us, size, p, q, cosine, cosine * tangent);
    rotate(v, size, p, q, cosine, cosine * tangent);
    return true;
  }
}

/** Jacobi converges quadratically at the end: ten sweeps are rare, thirty were never seen. */
const MAX_SWEEPS = 30;

function dot(a: Float64Array, size: number, p: number, q: number): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += a[p * size + i]! * a[q * size + i]!;
  return sum;
}

function rotate(a: Float64Array, size: number, p: number, q: number, cosine: number, sine: number): void {
  for (let i = 0; i < size; i++) {
    const atP = a[p * size + i]!;
    const atQ = a[q * size + i]!;
    a[p * size + i] = cosine * atP - sine * atQ;
    a[q * size + i] = sine * atP + cosine * atQ;
  }
}
