/**
 * The small dense system of the unknown device currents.
 *
 * Rows of rising devices are eliminated first with row exchange; rows of falling devices (constant power) last, in
 * order and without exchange, because the signs of their pivots tell whether the point is stable: all positive on the
 * branch reached from no load, not so beyond the tip of the curve.
 */

/** A pivot this small beside its row's largest entry counts as none. */
const NO_PIVOT = 1e-12;
/** Right side (row scaled to 1) that a row without pivot may have left by rounding. */
const STRAY = 1e-9;
/** Falling rows with a pivot (row scaled to 1) at or below this are not on the upper branch. */
const STABLE_PIVOT = 1e-9;

export class SmallSystem {
  size = 0;
  /** Solution of the last `solve`. */
  unknown = new Float64Array(8);
  /** 1 where the row had no pivot: its device has no influence on what it regulates. */
  powerless = new Uint8Array(8);
  /** True when some falling device is beyond the tip of its curve at the last linearisation. */
  unstable = false;
  /** True when a row without pivot asks for something (its device cannot get what it regulates). */
  contradictory = false;
  private falling = new Uint8Array(8);
  private capacity = 8;
  private A = new Float64Array(8 * 9);
  private order = new Int32Array(8);
  private rowAt = new Int32Array(8);

  clear(): void {
    this.size = 0;
  }

  /** Adds an unknown; returns its number. */
  add(falling: boolean): number {
    if (this.size === this.capacity) this.grow();
    this.falling[this.size] = falling ? 1 : 0;
    this.size += 1;
    return this.size - 1;
  }

  private grow(): void {
    const kept = this.falling;
    this.capacity *= 2;
    this.falling = new Uint8Array(this.capacity);
    this.falling.set(kept);
    this.unknown = new Float64Array(this.capacity);
    this.powerless = new Uint8Array(this.capacity);
    this.A = new Float64Array(this.capacity * (this.capacity + 1));
    this.order = new Int32Array(this.capacity);
    this.rowAt = new Int32Array(this.capacity);
  }

  clearRows(): void {
    this.A.fill(0, 0, this.capacity * this.size);
    for (let q = 0; q < this.size; q += 1) this.A[this.capacity * this.capacity + q] = 0;
  }

  addTo(row: number, column: number, value: number): void {
    this.A[row * this.capacity + column]! += value;
  }

  addRight(row: number, value: number): void {
    this.A[this.capacity * this.capacity + row]! += value;
  }

  /** Rising unknowns first; scales every row by its largest entry. */
  private prepare(): number {
    const { A, capacity, size, order } = this;
    let rising = 0;
    let place = 0;
    for (let q = 0; q < size; q += 1) if (this.falling[q] === 0) order[place++] = q;
    rising = place;
    for (let q = 0; q < size; q += 1) if (this.falling[q] === 1) order[place++] = q;
    for (let q = 0; q < size; q += 1) {
      let largest = 0;
      const row = q * capacity;
      for (let r = 0; r < size; r += 1) largest = Math.max(largest, Math.abs(A[row + r]!));
      if (largest === 0) continue;
      for (let r = 0; r < size; r += 1) A[row + r]! /= largest;
      A[capacity * capacity + q]! /= largest;
    }
    return rising;
  }

  solve(): void {
    const { A, capacity, size, order, rowAt, unknown, powerless } = this;
    const right = capacity * capacity;
    const rising = this.prepare();
    this.unstable = false;
    this.contradictory = false;
    // rowAt: which physical row stands at elimination place i (columns keep `order`)
    for (let i = 0; i < size; i += 1) rowAt[i] = order[i]!;
    for (let i = 0; i < size; i += 1) {
      const column = order[i]!;
      if (i < rising) {
        let best = i;
        let bestSize = Math.abs(A[rowAt[i]! * capacity + column]!);
        for (let r = i + 1; r < rising; r += 1) {
          const candidate = Math.abs(A[rowAt[r]! * capacity + column]!);
          if (candidate > bestSize) {
            best = r;
            bestSize = candidate;
          }
        }
        const swap = rowAt[i]!;
        rowAt[i] = rowAt[best]!;
        rowAt[best] = swap;
      }
      const row = rowAt[i]! * capacity;
      const pivot = A[row + column]!;
      powerless[column] = 0;
      if (i >= rising && pivot <= STABLE_PIVOT) this.unstable = true;
      if (pivot < NO_PIVOT && pivot > -NO_PIVOT) {
        powerless[column] = 1;
        continue;
      }
      for (let r = i + 1; r < size; r += 1) {
        const other = rowAt[r]! * capacity;
        const entry = A[other + column]!;
        if (entry === 0) continue;
        const f = entry / pivot;
        for (let c = i + 1; c < size; c += 1) A[other + order[c]!]! -= f * A[row + order[c]!]!;
        A[right + rowAt[r]!]! -= f * A[right + rowAt[i]!]!;
      }
    }
    for (let i = size - 1; i >= 0; i -= 1) {
      const column = order[i]!;
      if (powerless[column] === 1) {
        if (Math.abs(A[right + rowAt[i]!]!) > STRAY) this.contradictory = true;
        unknown[column] = 0;
        continue;
      }
      const row = rowAt[i]! * capacity;
      let x = A[right + rowAt[i]!]!;
      for (let c = i + 1; c < size; c += 1) x -= A[row + order[c]!]! * unknown[order[c]!]!;
      unknown[column] = x / A[row + column]!;
    }
  }
}
