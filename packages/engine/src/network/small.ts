/**
 * The small dense system of the unknown device currents.
 *
 * Rows of ideal sources and of rising devices are eliminated first with row exchange (where two rows ask for the same, the
 * later one is left without pivot); rows of falling devices (constant power) last, in
 * order and without exchange, because the signs of their pivots tell whether the point is stable: all positive on the
 * branch reached from no load, not so beyond the tip of the curve.
 */

/** Kinds of unknown currents, in the order of elimination: of ideal sources, of other rising devices, of falling ones. */
export const IDEAL = 0;
export const RISING = 1;
export const FALLING = 2;
export type Kind = typeof IDEAL | typeof RISING | typeof FALLING;

/** A pivot this small beside its row's largest entry counts as none. */
const NO_PIVOT = 1e-12;
/** Constant (row scaled to 1) that a row without pivot may have left by rounding. */
const STRAY = 1e-9;
/** Falling rows with a pivot (row scaled to 1) at or below this are not on the upper branch. */
const STABLE_PIVOT = 1e-9;

export class SmallSystem {
  size = 0;
  /** Rows of `size` coefficients and one constant: coefficients x unknowns + constant = 0. */
  readonly rows: Float64Array;
  /** Largest contribution to a coefficient of each row: what is far smaller is rounding. */
  readonly scale: Float64Array;
  /** Solution of the last `solve`. */
  readonly unknown: Float64Array;
  /** 1 where the row had no pivot: its device has no influence on what it regulates. */
  readonly powerless: Uint8Array;
  /** True when some falling device is beyond the tip of its curve at the last linearisation. */
  unstable = false;
  /** True when a row without pivot asks for something (its device cannot get what it regulates). */
  contradictory = false;
  private readonly kind: Uint8Array;
  /** How many unknowns come before the falling ones. */
  private rising = 0;
  /** Elimination place -> column, and -> row. */
  private readonly columnAt: Int32Array;
  private readonly rowAt: Int32Array;

  /** @param most greatest number of unknowns */
  constructor(most: number) {
    this.rows = new Float64Array(most * (most + 1));
    this.scale = new Float64Array(most);
    this.unknown = new Float64Array(most);
    this.powerless = new Uint8Array(most);
    this.kind = new Uint8Array(most);
    this.columnAt = new Int32Array(most);
    this.rowAt = new Int32Array(most);
  }

  clear(): void {
    this.size = 0;
  }

  /** Adds an unknown; returns its number. */
  add(kind: Kind): number {
    this.kind[this.size] = kind;
    this.size += 1;
    return this.size - 1;
  }

  clearRows(): void {
    const { rows, size, scale } = this;
    const end = size * (size + 1);
    for (let i = 0; i < end; i += 1) rows[i] = 0;
    for (let q = 0; q < size; q += 1) scale[q] = 0;
  }

  /** Works out the order of elimination: ideal sources and rising unknowns first. To be asked when all unknowns are there. */
  order(): void {
    const { size, columnAt, kind } = this;
    let place = 0;
    for (let q = 0; q < size; q += 1) if (kind[q] === IDEAL) columnAt[place++] = q;
    for (let q = 0; q < size; q += 1) if (kind[q] === RISING) columnAt[place++] = q;
    this.rising = place;
    for (let q = 0; q < size; q += 1) if (kind[q] === FALLING) columnAt[place++] = q;
  }

  /** Scales every row by its largest contribution. */
  private prepare(): void {
    const { rows, size, columnAt, rowAt, scale } = this;
    const stride = size + 1;
    for (let q = 0; q < size; q += 1) {
      rowAt[q] = columnAt[q]! * stride;
      const start = q * stride;
      const largest = scale[q]!;
      if (largest === 0) continue;
      const by = 1 / largest;
      for (let r = start; r <= start + size; r += 1) rows[r]! *= by;
    }
  }

  /** Brings the row with the largest entry of a column to a place among the rising ones. */
  private exchange(place: number, rising: number, column: number): void {
    const { rows, rowAt } = this;
    let best = place;
    let largest = Math.abs(rows[rowAt[place]! + column]!);
    for (let r = place + 1; r < rising; r += 1) {
      const entry = Math.abs(rows[rowAt[r]! + column]!);
      if (entry > largest) {
        best = r;
        largest = entry;
      }
    }
    const swap = rowAt[place]!;
    rowAt[place] = rowAt[best]!;
    rowAt[best] = swap;
  }

  solve(): void {
    const { rows, size, columnAt, rowAt, powerless, rising } = this;
    this.prepare();
    this.unstable = false;
    for (let i = 0; i < size; i += 1) {
      const column = columnAt[i]!;
      if (i < rising) this.exchange(i, rising, column);
      const row = rowAt[i]!;
      const pivot = rows[row + column]!;
      powerless[column] = 0;
      if (i >= rising && pivot <= STABLE_PIVOT) this.unstable = true;
      if (pivot < NO_PIVOT && pivot > -NO_PIVOT) {
        powerless[column] = 1;
        continue;
      }
      for (let r = i + 1; r < size; r += 1) {
        const other = rowAt[r]!;
        const entry = rows[other + column]!;
        if (entry === 0) continue;
        const f = entry / pivot;
        // columns already eliminated are not read again, so whole rows may be combined
        for (let c = 0; c <= size; c += 1) rows[other + c]! -= f * rows[row + c]!;
      }
    }
    this.substitute();
  }

  private substitute(): void {
    const { rows, size, columnAt, rowAt, powerless, unknown } = this;
    this.contradictory = false;
    for (let i = size - 1; i >= 0; i -= 1) {
      const column = columnAt[i]!;
      const row = rowAt[i]!;
      let x = -rows[row + size]!;
      if (powerless[column] === 1) {
        if (Math.abs(x) > STRAY) this.contradictory = true;
        unknown[column] = 0;
        continue;
      }
      for (let c = i + 1; c < size; c += 1) x -= rows[row + columnAt[c]!]! * unknown[columnAt[c]!]!;
      unknown[column] = x / rows[row + column]!;
    }
  }
}
