/**
 * The hot loops: star-mesh factorisation, forward and backward substitution on plain typed arrays.
 *
 * Conductances are only added, multiplied and divided, never subtracted, so each stays right to a few units in the last
 * place whatever the ratios. A step whose conductances are all zero is the last node of a floating island: it is held
 * at zero volts (`inverse` 0) and nothing passes through it.
 */
import type { Elimination } from './order.ts';

/**
 * Factors the steps of the runs `fromRun .. toRun`.
 *
 * @param S slot conductances (siemens), overwritten by the values at the time of elimination
 * @param L receives each slot's share of its node's sum (0..1)
 * @param inverse receives 1 / sum (ohms), 0 where the sum is zero
 * @param J injected currents (amperes), carried forward
 */
export function factor(
  plan: Elimination,
  S: Float64Array,
  L: Float64Array,
  inverse: Float64Array,
  J: Float64Array,
  fromRun: number,
  toRun: number,
): void {
  const { start, column, target, runs } = plan;
  for (let run = fromRun; run < toRun; run += 1) {
    const degree = runs[4 * run]!;
    const first = runs[4 * run + 1]!;
    const end = runs[4 * run + 2]!;
    let t = runs[4 * run + 3]!;
    let e = start[first]!;
    if (degree === 1) {
      for (let k = first; k < end; k += 1, e += 1) {
        const s = S[e]!;
        if (s > 0) {
          inverse[k] = 1 / s;
          L[e] = 1;
          J[column[e]!]! += J[k]!;
        } else {
          inverse[k] = 0;
          L[e] = 0;
        }
      }
    } else if (degree === 2) {
      for (let k = first; k < end; k += 1, e += 2) {
        const s0 = S[e]!;
        const s1 = S[e + 1]!;
        const s = s0 + s1;
        const inv = s > 0 ? 1 / s : 0;
        const f0 = s0 * inv;
        const f1 = s1 * inv;
        const j = J[k]!;
        inverse[k] = inv;
        L[e] = f0;
        L[e + 1] = f1;
        J[column[e]!]! += f0 * j;
        J[column[e + 1]!]! += f1 * j;
        S[target[t]!]! += f0 * s1;
        t += 1;
      }
    } else if (degree === 3) {
      for (let k = first; k < end; k += 1, e += 3) {
        const s0 = S[e]!;
        const s1 = S[e + 1]!;
        const s2 = S[e + 2]!;
        const s = s0 + s1 + s2;
        const inv = s > 0 ? 1 / s : 0;
        const f0 = s0 * inv;
        const f1 = s1 * inv;
        const f2 = s2 * inv;
        const j = J[k]!;
        inverse[k] = inv;
        L[e] = f0;
        L[e + 1] = f1;
        L[e + 2] = f2;
        J[column[e]!]! += f0 * j;
        J[column[e + 1]!]! += f1 * j;
        J[column[e + 2]!]! += f2 * j;
        S[target[t]!]! += f0 * s1;
        S[target[t + 1]!]! += f0 * s2;
        S[target[t + 2]!]! += f1 * s2;
        t += 3;
      }
    } else {
      for (let k = first; k < end; k += 1) {
        const last = e + degree;
        let s = 0;
        for (let i = e; i < last; i += 1) s += S[i]!;
        const inv = s > 0 ? 1 / s : 0;
        const j = J[k]!;
        inverse[k] = inv;
        for (; e < last; e += 1) {
          const f = S[e]! * inv;
          L[e] = f;
          J[column[e]!]! += f * j;
          for (let h = e + 1; h < last; h += 1) {
            S[target[t]!]! += f * S[h]!;
            t += 1;
          }
        }
      }
    }
  }
}

/** Carries injected currents forward through the steps of the runs `fromRun .. toRun` of a factored network. */
export function forward(
  plan: Elimination,
  L: Float64Array,
  J: Float64Array,
  fromRun: number,
  toRun: number,
): void {
  const { start, column, runs } = plan;
  for (let run = fromRun; run < toRun; run += 1) {
    const degree = runs[4 * run]!;
    const first = runs[4 * run + 1]!;
    const end = runs[4 * run + 2]!;
    let e = start[first]!;
    if (degree === 1) {
      for (let k = first; k < end; k += 1, e += 1) J[column[e]!]! += L[e]! * J[k]!;
    } else if (degree === 2) {
      for (let k = first; k < end; k += 1, e += 2) {
        const j = J[k]!;
        J[column[e]!]! += L[e]! * j;
        J[column[e + 1]!]! += L[e + 1]! * j;
      }
    } else {
      for (let k = first; k < end; k += 1) {
        const j = J[k]!;
        for (const last = e + degree; e < last; e += 1) J[column[e]!]! += L[e]! * j;
      }
    }
  }
}

/** Node voltages of the steps of the runs `fromRun .. toRun`, last first; later voltages must be known already. */
export function backward(
  plan: Elimination,
  L: Float64Array,
  inverse: Float64Array,
  J: Float64Array,
  v: Float64Array,
  fromRun: number,
  toRun: number,
): void {
  const { start, column, runs } = plan;
  for (let run = toRun - 1; run >= fromRun; run -= 1) {
    const degree = runs[4 * run]!;
    const first = runs[4 * run + 1]!;
    let k = runs[4 * run + 2]! - 1;
    let e = start[k]!;
    if (degree === 1) {
      for (; k >= first; k -= 1, e -= 1) v[k] = J[k]! * inverse[k]! + L[e]! * v[column[e]!]!;
    } else if (degree === 2) {
      for (; k >= first; k -= 1, e -= 2) {
        v[k] = J[k]! * inverse[k]! + L[e]! * v[column[e]!]! + L[e + 1]! * v[column[e + 1]!]!;
      }
    } else {
      for (; k >= first; k -= 1, e -= degree) {
        let volts = J[k]! * inverse[k]!;
        for (let i = 0; i < degree; i += 1) volts += L[e + i]! * v[column[e + i]!]!;
        v[k] = volts;
      }
    }
  }
}

/** `forward` for currents kept elsewhere: that of step k at `base + k`. */
export function forwardAt(
  plan: Elimination,
  L: Float64Array,
  W: Float64Array,
  base: number,
  from: number,
  to: number,
): void {
  const { start, column } = plan;
  for (let k = from; k < to; k += 1) {
    const j = W[base + k]!;
    if (j === 0) continue;
    const end = start[k + 1]!;
    for (let e = start[k]!; e < end; e += 1) W[base + column[e]!]! += L[e]! * j;
  }
}

/** `backward` in place for currents kept elsewhere: that of step k at `base + k`. */
export function backwardAt(
  plan: Elimination,
  L: Float64Array,
  inverse: Float64Array,
  W: Float64Array,
  base: number,
  from: number,
  to: number,
): void {
  const { start, column } = plan;
  for (let k = to - 1; k >= from; k -= 1) {
    let volts = W[base + k]! * inverse[k]!;
    const end = start[k + 1]!;
    for (let e = start[k]!; e < end; e += 1) volts += L[e]! * W[base + column[e]!]!;
    W[base + k] = volts;
  }
}
