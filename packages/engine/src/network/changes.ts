/** Which elements of a circuit have other numbers than when it was solved last. */
import type { ElementOf } from '../contracts/element.ts';
import type { Tail } from './plan.ts';

export class Changes {
  /** Places of the changed elements; the first `count` of them count. */
  readonly list: Int32Array;
  count = 0;
  /** True when a resistance of the tail is another than it was. */
  tail = false;
  private readonly seen: (ElementOf<number> | null)[];
  /** Resistances of the tail when it was looked at last. */
  private readonly ohms: Float64Array;
  /** Where the tail began then; the number of elements when there was none. */
  private from: number;

  constructor(size: number) {
    this.list = new Int32Array(size);
    this.seen = Array.from({ length: size }, () => null);
    this.ohms = new Float64Array(size);
    this.from = size;
  }

  /** Looks at all elements; those of the tail are resistors. */
  look(elements: readonly ElementOf<number>[], tail: Tail | undefined): void {
    const { seen, list } = this;
    const from = tail === undefined ? seen.length : tail.from;
    let count = 0;
    for (let e = 0; e < from; e += 1) {
      const element = elements[e]!;
      if (seen[e] === element) continue;
      seen[e] = element;
      list[count] = e;
      count += 1;
    }
    this.count = count;
    this.tail = tail !== undefined && this.lookAtTail(tail);
    this.from = from;
  }

  /** Takes every element for a changed one at the next look. */
  forget(): void {
    this.seen.fill(null);
    this.from = -1;
  }

  private lookAtTail({ from, ohms }: Tail): boolean {
    const { seen, ohms: known } = this;
    let changed = from !== this.from;
    for (let e = from; e < this.from; e += 1) seen[e] = null;
    for (let e = from; e < seen.length; e += 1) {
      if (ohms[e - from] === known[e]) continue;
      known[e] = ohms[e - from]!;
      changed = true;
    }
    return changed;
  }
}
