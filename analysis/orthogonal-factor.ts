/**
 * A = QR by Householder reflections, with column pivoting: the way to least squares that does not square the condition
 * number, as AᵀA would. Matrices are column-major in a Float64Array: element (i, j) stands at j·rows + i.
 * Buffers belong to the object and are used again by each `factorise`. Golub & Van Loan, Matrix Computations, 5.2 and 5.4.
 */
export class OrthogonalFactor {
  readonly rows: number;
  readonly columns: number;
  /** Column j of R belongs to column order[j] of A. */
  readonly order: Int32Array;
  /** Above the diagonal R, from it downward the Householder vectors. */
  readonly #packed: Float64Array;
  readonly #diagonal: Float64Array;

  constructor(rows: number, columns: number) {
    if (!(rows >= columns)) throw new RangeError(`${rows} rows are too few for ${columns} columns`);
    this.rows = rows;
    this.columns = columns;
    this.order = new Int32Array(columns);
    this.#packed = new Float64Array(rows * columns);
    this.#diagonal = new Float64Array(columns);
  }

  factorise(a: Float64Array): void {
    const { rows, columns, order } = this;
    const q = this.#packed;
    q.set(a);
    for (let j = 0; j < columns; j++) order[j] = j;
    for (let k = 0; k < columns; k++) {
      this.#bringLongestColumn(k);
      const norm = columnNorm(q, rows, k, k);
      const at = k * rows + k;
      if (norm === 0) {
        this.#diagonal[k] = 0;
        continue;
      }
      // The sign that adds, so that nothing cancels.
      const alpha = q[at]! > 0 ? -norm : norm;
      q[at]! -= alpha;
      this.#diagonal[k] = alpha;
      for (let j = k + 1; j < columns; j++) this.#reflect(k, q, j * rows);
    }
  }

  /** b := Qᵀb, in place. */
  applyTransposed(b: Float64Array): void {
    for (let k = 0; k < this.columns; k++) this.#reflect(k, b, 0);
  }

  /** R as a square matrix, its columns in the order of A's. */
  copyUpper(out: Float64Array): void {
    const { rows, columns, order } = this;
    out.fill(0);
    for (let j = 0; j < columns; j++) {
      const to = order[j]! * columns;
      for (let i = 0; i < j; i++) out[to + i] = this.#packed[j * rows + i]!;
      out[to + j] = this.#diagonal[j]!;
    }
  }

  /** Column k, the reflection H = I − v vᵀ / (−α v₁), applied to the vector that starts at `offset`. */
  #reflect(k: number, target: Float64Array, offset: number): void {
    const { rows } = this;
    const q = this.#packed;
    const at = k * rows;
    const alpha = this.#diagonal[k]!;
    if (alpha === 0) return;
    let dot = 0;
    for (let i = k; i < rows; i++) dot += q[at + i]! * target[offset + i]!;
    const factor = dot / (alpha * q[at + k]!);
    for (let i = k; i < rows; i++) target[offset + i]! += factor * q[at + i]!;
  }

  #bringLongestColumn(k: number): void {
    const { rows, columns, order } = this;
    const q = this.#packed;
    let longest = k;
    let longestNorm = -1;
    for (let j = k; j < columns; j++) {
      const norm = columnNorm(q, rows, j, k);
      if (norm > longestNorm) [longest, longestNorm] = [j, norm];
    }
    if (longest === k) return;
    [order[k], order[longest]] = [order[longest]!, order[k]!];
    for (let i = 0; i < rows; i++) {
      const held = q[k * rows + i]!;
      q[k * rows + i] = q[longest * rows + i]!;
      q[longest * rows + i] = held;
    }
  }
}

/** Euclidean length of column j from row `from` down. Columns come scaled, so squares neither over- nor underflow. */
export function columnNorm(a: Float64Array, rows: number, j: number, from = 0): number {
  let sum = 0;
  for (let i = j * rows + from; i < (j + 1) * rows; i++) sum += a[i]! * a[i]!;
  return Math.sqrt(sum);
}
