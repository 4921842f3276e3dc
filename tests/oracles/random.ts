/** A small seeded generator of numbers (mulberry32), so that every draw can be repeated. */
export class Random {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** Uniform in [0, 1). */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let t = this.state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** Uniform in the logarithm. */
  scale(low: number, high: number): number {
    return Math.exp(this.between(Math.log(low), Math.log(high)));
  }

  whole(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  chance(share: number): boolean {
    return this.next() < share;
  }

  pick<T>(list: readonly T[]): T {
    const item = list[this.whole(0, list.length - 1)];
    if (item === undefined) throw new RangeError('nothing to pick from');
    return item;
  }
}
