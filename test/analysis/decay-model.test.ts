import { describe, expect, test } from "vitest";
import { guessDecay } from "../../analysis/decay-guess.ts";
import { decayColumns, lineariseDecay } from "../../analysis/decay-model.ts";
import reference from "../fixtures/decay-gls.fixture.json" with { type: "json" };

// Generalised least squares by dense Cholesky algebra (numpy/scipy), which a Kalman filter must reproduce.
describe.each(reference.cases)("B + A·e^(−kt) with memory, $id", ({ t_h, y, fixed_noise }) => {
  test.each(fixed_noise)("sigma $sigma, tau $tau_h h, white $white", (expected) => {
    const data = { tHours: Float64Array.from(t_h), values: Float64Array.from(y), perBlock: 1, stepQ: 0 };
    const noise = { sigma: expected.sigma, tauH: expected.tau_h, white: expected.white, countingQ: 0 };
    let at = guessDecay(data, () => ({ mean: 0, sd: 1e9 }))!;
    let fit = lineariseDecay(data, decayColumns(data, at), noise, null)!;
    for (let round = 0; round < 40; round++) {
      const [dA, dK, dB] = fit.step;
      at = { lnA: at.lnA + dA, kPerH: at.kPerH + dK, background: Math.max(0, at.background + dB) };
      fit = lineariseDecay(data, decayColumns(data, at), noise, null)!;
    }
    const amplitude = Math.exp(at.lnA);
    expect(amplitude / expected.A).toBeCloseTo(1, 10);
    expect(at.kPerH / expected.k_per_h).toBeCloseTo(1, 10);
    expect(at.background / expected.B).toBeCloseTo(1, 10);
    const u = fit.covariance.map((row, i) => Math.sqrt(row[i]!));
    expect((amplitude * u[0]!) / expected.u[0]!).toBeCloseTo(1, 10);
    expect(u[1]! / expected.u[1]!).toBeCloseTo(1, 10);
    expect(u[2]! / expected.u[2]!).toBeCloseTo(1, 10);
    expect(fit.whitened.logDet).toBeCloseTo(expected.logdet_noise, 8);
    // The reference counts A, the fit ln A: the determinant of the information differs by A², its half-logarithm by ln A.
    expect(fit.objective - at.lnA).toBeCloseTo(expected.reml, 8);
  });
});
