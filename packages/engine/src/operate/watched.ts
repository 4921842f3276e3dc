/** Surroundings that note what is looked at, and the list of what can be. */
import type { CornerFacts, StateFacts, Surroundings } from '../contracts/index.ts';

/** Surroundings without what is fixed for a part. */
export type Varying = Pick<
  Surroundings,
  | 'mode'
  | 'state'
  | 'corner'
  | 'shore'
  | 'sun'
  | 'closed'
  | 'opened'
  | 'memory'
  | 'air'
  | 'setPoint'
  | 'leastSetPoint'
  | 'vehicleRest'
  | 'bankHeldAt'
  | 'unknownLive'
>;

export type Fixed = Omit<Surroundings, keyof Varying>;

/** What of a scene's surroundings can be looked at one by one; of a state and a corner each fact by itself. */
type Facts = Pick<Varying, 'state' | 'corner'>;

/** Looks up one thing that varies. */
export const LOOK = {
  mode: (at: Varying) => at.mode,
  shore: (at: Varying) => at.shore,
  sun: (at: Varying) => at.sun,
  closed: (at: Varying) => at.closed,
  opened: (at: Varying) => at.opened,
  memory: (at: Varying) => at.memory,
  air: (at: Varying) => at.air,
  setPoint: (at: Varying) => at.setPoint,
  leastSetPoint: (at: Varying) => at.leastSetPoint,
  vehicleRest: (at: Varying) => at.vehicleRest,
  bankHeldAt: (at: Varying) => at.bankHeldAt,
  unknownLive: (at: Varying) => at.unknownLive,
  // Everything of a state that is not listed below.
  state: (at: Facts) => at.state,
  'state.id': (at: Facts) => at.state.id,
  'state.supply': (at: Facts) => at.state.supply,
  'state.speed': (at: Facts) => at.state.speed,
  'state.cranking': (at: Facts) => at.state.cranking,
  'state.stored': (at: Facts) => at.state.stored,
  'state.running': (at: Facts) => at.state.running,
  'state.ownLoad': (at: Facts) => at.state.ownLoad,
  'state.surveyedLoad': (at: Facts) => at.state.surveyedLoad,
  'state.output': (at: Facts) => at.state.output,
  'corner.id': (at: Facts) => at.corner.id,
  'corner.source': (at: Facts) => at.corner.source,
  'corner.air': (at: Facts) => at.corner.air,
  'corner.vehicleBattery': (at: Facts) => at.corner.vehicleBattery,
  'corner.houseBattery': (at: Facts) => at.corner.houseBattery,
  'corner.busy': (at: Facts) => at.corner.busy,
  'corner.ratedOutput': (at: Facts) => at.corner.ratedOutput,
} as const satisfies Record<string, (at: Varying) => unknown>;

export type Thing = keyof typeof LOOK;

const THINGS = Object.keys(LOOK) as readonly Thing[];

/** One bit for each thing that varies, so that a set of them is a number. */
export const BIT = Object.fromEntries(THINGS.map((thing, i) => [thing, 1 << i])) as Readonly<
  Record<Thing, number>
>;

const OF_STATE = THINGS.filter((thing) => thing.startsWith('state'));
const OF_CORNER = THINGS.filter((thing) => thing.startsWith('corner'));

/** Bits of the facts in which two states or two corners differ. */
export function differing(a: Facts, b: Facts): number {
  let bits = 0;
  if (a.state !== b.state) bits |= among(OF_STATE, a, b);
  if (a.corner !== b.corner) bits |= among(OF_CORNER, a, b);
  return bits;
}

function among(things: readonly Thing[], a: Facts, b: Facts): number {
  let bits = 0;
  for (const thing of things) {
    const look: (at: Varying) => unknown = LOOK[thing];
    if (look(a as Varying) !== look(b as Varying)) bits |= BIT[thing];
  }
  return bits;
}

/**
 * Surroundings that note which of their things are looked at, and in which order. Only while an answer is made: later looks
 * would go unnoticed and are refused.
 */
export class Watched implements Surroundings {
  /** Bits of what was looked at so far. */
  looked = 0;
  readonly looks: Thing[] = [];
  #at: Varying | null;
  readonly read: Surroundings['read'];
  readonly part: Surroundings['part'];
  readonly nominal: Surroundings['nominal'];
  readonly vehicle: Surroundings['vehicle'];
  readonly sectionMedium: Surroundings['sectionMedium'];
  readonly wiredTerminals: Surroundings['wiredTerminals'];
  readonly wired: Surroundings['wired'];
  readonly other: Surroundings['other'];

  constructor(fixed: Fixed, at: Varying) {
    this.#at = at;
    this.read = fixed.read;
    this.part = fixed.part;
    this.nominal = fixed.nominal;
    this.vehicle = fixed.vehicle;
    this.sectionMedium = fixed.sectionMedium;
    this.wiredTerminals = fixed.wiredTerminals;
    this.wired = fixed.wired;
    this.other = fixed.other;
  }

  /** No more looks from here on. */
  close(): void {
    this.#at = null;
  }

  /** What varies, with the look noted. */
  see(thing: Thing): Varying {
    if (this.#at === null) throw new Error(`${this.part} looks at ${thing} after it has answered`);
    const bit = BIT[thing];
    if ((this.looked & bit) === 0) {
      this.looked |= bit;
      this.looks.push(thing);
    }
    return this.#at;
  }

  readonly state: StateFacts = new WatchedState(this);
  readonly corner: CornerFacts = new WatchedCorner(this);

  get mode() {
    return this.see('mode').mode;
  }

  get shore() {
    return this.see('shore').shore;
  }

  get sun() {
    return this.see('sun').sun;
  }

  get closed() {
    return this.see('closed').closed;
  }

  get opened() {
    return this.see('opened').opened;
  }

  get memory() {
    return this.see('memory').memory;
  }

  get air() {
    return this.see('air').air;
  }

  get setPoint() {
    return this.see('setPoint').setPoint;
  }

  get leastSetPoint() {
    return this.see('leastSetPoint').leastSetPoint;
  }

  get vehicleRest() {
    return this.see('vehicleRest').vehicleRest;
  }

  get bankHeldAt() {
    return this.see('bankHeldAt').bankHeldAt;
  }

  get unknownLive() {
    return this.see('unknownLive').unknownLive;
  }
}

class WatchedState implements StateFacts {
  readonly #all: Watched;

  constructor(all: Watched) {
    this.#all = all;
  }

  get id() {
    return this.#all.see('state.id').state.id;
  }

  get supply() {
    return this.#all.see('state.supply').state.supply;
  }

  get speed() {
    return this.#all.see('state.speed').state.speed;
  }

  get cranking() {
    return this.#all.see('state.cranking').state.cranking;
  }

  get stored() {
    return this.#all.see('state.stored').state.stored;
  }

  get running() {
    return this.#all.see('state.running').state.running;
  }

  get ownLoad() {
    return this.#all.see('state.ownLoad').state.ownLoad;
  }

  get surveyedLoad() {
    return this.#all.see('state.surveyedLoad').state.surveyedLoad;
  }

  get output() {
    return this.#all.see('state.output').state.output;
  }

  get label() {
    return this.#all.see('state').state.label;
  }

  get ignition() {
    return this.#all.see('state').state.ignition;
  }

  get recovering() {
    return this.#all.see('state').state.recovering;
  }

  get lasts() {
    return this.#all.see('state').state.lasts;
  }

  get lastsGiven() {
    return this.#all.see('state').state.lastsGiven;
  }

  get comesFrom() {
    return this.#all.see('state').state.comesFrom;
  }

  get posts() {
    return this.#all.see('state').state.posts;
  }
}

class WatchedCorner implements CornerFacts {
  readonly #all: Watched;

  constructor(all: Watched) {
    this.#all = all;
  }

  get id() {
    return this.#all.see('corner.id').corner.id;
  }

  get source() {
    return this.#all.see('corner.source').corner.source;
  }

  get air() {
    return this.#all.see('corner.air').corner.air;
  }

  get vehicleBattery() {
    return this.#all.see('corner.vehicleBattery').corner.vehicleBattery;
  }

  get houseBattery() {
    return this.#all.see('corner.houseBattery').corner.houseBattery;
  }

  get busy() {
    return this.#all.see('corner.busy').corner.busy;
  }

  get ratedOutput() {
    return this.#all.see('corner.ratedOutput').corner.ratedOutput;
  }
}
