/** Resistances that stand in place of those of a circuit's last elements, which all are resistors. */
export class Tail {
  /** The first element that they stand for. */
  readonly from: number;
  /** Of each element from there on: its conductance, siemens; 0 for an open contact. */
  readonly siemens: Float64Array;
  /** Some of them are open contacts. */
  readonly opens: boolean;

  /**
   * `ohms`: of each element from `from` on; `Infinity` is an open contact.
   *
   * @throws RangeError for a resistance that is none
   */
  constructor(from: number, ohms: Float64Array) {
    const siemens = new Float64Array(ohms.length);
    let opens = false;
    for (let i = 0; i < ohms.length; i += 1) {
      const given = ohms[i]!;
      if (!(given > 0)) noResistance(given, from + i);
      if (given === Infinity) opens = true;
      siemens[i] = 1 / given;
    }
    this.from = from;
    this.siemens = siemens;
    this.opens = opens;
  }
}

/** Refuses what is no resistance of element e. */
export function noResistance(ohms: number, e: number): never {
  throw new RangeError(`element ${e}: ${ohms} ohm is not a resistance`);
}
