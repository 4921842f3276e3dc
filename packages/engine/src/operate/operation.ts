/** A build under one assumption, ready to be asked: everything is solved when asked for and remembered. */
import type {
  Ampacity,
  AmpsOver,
  Assumption,
  Basis,
  Build,
  Condition,
  CornerFacts,
  CornerId,
  Id,
  LaidWire,
  MostVolts,
  Operation,
  Placed,
  Practice,
  Registry,
  ShortCase,
  ShortPoint,
  StateFacts,
  StateId,
  TerminalRef,
  VoltsOver,
  Window,
} from '../contracts/index.ts';
import {
  conditionId,
  CORNERS,
  cornerOf,
  handSets,
  handsText,
  judgedSet,
  makeCondition,
  nominalHouse,
  nominalVehicle,
  sameFacts,
  setPointAt,
  shoreIn,
  statesOf,
  sunIn,
  variableVoltage,
  vehicleFacts,
  type Envelope,
  type Hands,
} from '../conditions/index.ts';
import { makeValues, type Values } from '../devices/values.ts';
import { airAt, layWires } from '../wiring/index.ts';
import { makeCircuit, type CircuitContext, type Scene } from './circuit.ts';
import { envelopeIn } from './envelope.ts';
import { makeHeating, type Heating } from './heating.ts';
import { applyMeasured } from './measured.ts';
import { keepInsides, TakesTheSet } from './insides.ts';
import { atOnce, type InSteps } from './in-steps.ts';
import { placeParts, unknownAt, type PlacedParts } from './placed.ts';
import { Frame } from './frame.ts';
import { BIT } from './memo.ts';
import { NO_PLAN, planFor } from './plans.ts';
import { Desk } from './desk.ts';
import type { Machine, Steps } from './run.ts';
import { shortContextOf } from './short-context.ts';
import { shortKey, solveShort, type ShortContext } from './short.ts';
import { SolvedRun } from './solved.ts';
import { followTrack, runFrom, type Arrived, type Entry, type Track } from './tracks.ts';
import { sweepInSteps } from './sweeps.ts';
import { Weather } from './weather.ts';
import { VoltsTable } from './volts-over.ts';
import { nearestOn } from './windows.ts';

export interface OperationOptions {
  readonly assumption: Assumption;
  readonly practice: Practice;
  readonly values: Values;
  readonly steps?: Steps;
}

export function makeOperation(build: Build, registry: Registry, options: OperationOptions): Operation {
  return new BuildOperation(build, registry, options);
}

/** Values of a build under an assumption, with what the build confirms. */
export function valuesFor(build: Build, assumption: Assumption): Values {
  return makeValues(assumption, new Set(build.confirmed.map((c) => c.table)));
}

class BuildOperation implements Operation {
  readonly build: Build;
  readonly assumption: Assumption;
  readonly parts: ReadonlyMap<Id, Placed>;
  readonly wires: ReadonlyMap<Id, LaidWire>;
  readonly states: readonly StateFacts[];
  readonly corners = CORNERS;
  readonly ownerSwitches: readonly Id[];
  readonly handSets: readonly Hands[];
  readonly normalHands: Hands;
  readonly posts: PlacedParts['posts'];
  readonly #values: Values;
  readonly #placed: PlacedParts;
  readonly #machine: Machine;
  readonly #heating: Heating;
  readonly #envelopes: ReadonlyMap<StateId, Envelope | null>;
  readonly #tracks = new Map<string, Track>();
  readonly #frames = new Map<string, Frame>();
  readonly #solved = new Map<string, readonly SolvedRun[]>();
  readonly #shortContext: ShortContext;
  readonly #shorts = new Map<string, ShortPoint>();
  readonly #weather: Weather;
  /** The frame made last: the next one takes over what cannot differ. */
  #latest: Frame | null = null;
  #windows: readonly Window[] | null = null;
  #judged: readonly Condition[] | null = null;
  #all: readonly SolvedRun[] | null = null;
  #volts: VoltsTable | null = null;
  #setRefused = false;

  constructor(build: Build, registry: Registry, options: OperationOptions) {
    this.build = build;
    this.assumption = options.assumption;
    this.#values = options.values;
    this.#placed = placeParts(build, registry, this.#values, (has) => vehicleFacts(build, has));
    this.parts = this.#placed.parts;
    this.posts = this.#placed.posts;
    this.wires = layWires(build, this.#values);
    this.#weather = new Weather(build, this.#values, this.wires);
    const variable = variableVoltage(
      build,
      this.#some((p) => p.ability.senses !== undefined),
    );
    this.states = statesOf(build, this.#values, this.#placed.vehicle, variable);
    this.#envelopes = new Map(
      this.states.map((s) => [s.id, envelopeIn(s, build, this.#placed, this.#values, variable)]),
    );
    const normal = new Map<Id, boolean>();
    for (const p of this.parts.values()) {
      if (p.ability.switches?.operatedBy === 'owner') normal.set(p.id, p.ability.switches.normal !== 'open');
    }
    this.ownerSwitches = [...normal.keys()].toSorted();
    this.handSets = handSets(normal);
    this.normalHands = Object.fromEntries(this.ownerSwitches.map((id) => [id, normal.get(id) ?? true]));
    const ctx = this.#context();
    const circuit = makeCircuit(ctx);
    const steps = options.steps ?? { nodes: 0, solves: 0 };
    this.#heating = makeHeating(this.wires, options.practice, this.#values);
    const start = {
      ctx,
      circuit,
      steps,
      amps: new Float64Array(circuit.wires.length),
      room: new Float64Array(circuit.wires.length),
      one: new Float64Array(circuit.wires.length),
      resistanceAt: build.settings.resistanceAt,
    };
    const unplanned: Machine = {
      ...start,
      desk: new Desk(circuit),
      plan: NO_PLAN,
      heated: () => NO_WIRES,
      cool: () => NO_WIRES,
    };
    if (build.measured.length > 0) {
      const at20 = new Float64Array(circuit.wires.length).fill(20);
      const asSampled = new Frame(unplanned, ctx.sample).elements(
        circuit.devices.map(() => 0),
        at20,
      );
      applyMeasured(circuit, asSampled, build.measured);
    }
    // A desk of its own: measured paths have changed what wires and parts put into the circuit.
    this.#machine = {
      ...start,
      desk: new Desk(circuit),
      plan: planFor(circuit.nodes.count, circuit.nodes.reference, circuit.shape),
      cool: (scene) => this.#weather.cool(scene.corner.air),
      heated: (amps, scene) => this.#heating.temperatures(amps, this.#weather.along(scene.corner.air)),
    };
    this.#shortContext = shortContextOf(this, this.#machine, (c) => this.#scene(c));
    keepInsides(this, {
      machine: this.#machine,
      sceneOf: (c) => this.#scene(c),
      envelopeOf: (state) => this.#envelopes.get(state) ?? null,
      solving: () => this.#solving(),
      refuseSet: (refused) => {
        this.#setRefused = refused;
      },
    });
  }

  #some(is: (p: Placed) => boolean): boolean {
    return [...this.parts.values()].some(is);
  }

  #context(): CircuitContext {
    return {
      placed: this.#placed,
      laid: this.wires,
      nominal: { vehicle: nominalVehicle(this.build), house: nominalHouse(this.build) },
      sample: this.#scene(this.#condition(this.states[0]?.id ?? 'parked', 'typical-quiet')),
      air: (place, corner) => this.#weather.at(place, corner.air),
    };
  }

  #condition(state: StateId, corner: CornerId): Condition {
    return makeCondition(state, corner, this.normalHands ?? {});
  }

  condition(
    state: StateId,
    corner: CornerId,
    hands: Hands = this.normalHands,
    open: Id | null = null,
  ): Condition {
    return makeCondition(state, corner, hands, open);
  }

  conditionId(c: Condition): string {
    return conditionId(c);
  }

  stateFacts(id: StateId): StateFacts | null {
    return this.states.find((s) => s.id === id) ?? null;
  }

  air(place: Id | null, corner: CornerFacts): Basis {
    return airAt(this.build, this.#values, place, corner.air);
  }

  wiresAt(terminal: TerminalRef): readonly Id[] {
    return this.#placed.wired.get(terminal) ?? [];
  }

  voltsOver(a: TerminalRef, b: TerminalRef): VoltsOver {
    const { nodes } = this.#machine.circuit;
    return this.#voltsOfAll().between(nodes.find(a), nodes.find(b));
  }

  mostVolts(a: TerminalRef, b: TerminalRef): MostVolts {
    const { nodes } = this.#machine.circuit;
    return this.#voltsOfAll().most(nodes.find(a), nodes.find(b));
  }

  partAmpsOver(part: Id, element: number): AmpsOver {
    const all = this.all();
    const amps = { mean: new Float64Array(all.length), most: new Float64Array(all.length) };
    const slot = this.#machine.circuit.byId.get(part);
    if (slot === undefined || element >= slot.count) return amps;
    all.forEach((solved, i) => solved.ampsInto(slot.offset + element, amps, i));
    return amps;
  }

  #voltsOfAll(): VoltsTable {
    this.#volts ??= new VoltsTable(this.all());
    return this.#volts;
  }

  figure(basis: Basis): Basis {
    return this.#values.figure(basis.path, basis.sourced, {
      label: basis.label,
      how: basis.how,
      effort: basis.effort,
    });
  }

  assumed(): readonly Basis[] {
    return this.#values.assumed();
  }

  #scene(c: Condition): Scene {
    const state = this.stateFacts(c.state);
    if (state === null) throw new Error(`this vehicle has no state ${c.state}`);
    const corner = cornerOf(c.corner);
    const envelope = this.#envelopes.get(c.state) ?? null;
    const usual = envelope === null ? null : setPointAt(envelope, corner);
    const setPoint =
      c.setPoint === null || usual === null
        ? usual
        : { ...usual, sourced: { ...usual.sourced, value: c.setPoint } };
    return {
      mode: 'service',
      state,
      corner,
      shore: c.shore,
      sun: c.sun,
      hands: c.hands,
      open: c.open === null ? NOTHING_OPEN : new Set([c.open]),
      unknownLive: c.unknownLive,
      setPoint,
      leastSetPoint: envelope === null ? null : envelope.least.sourced.value,
      vehicleRest: null,
    };
  }

  #frame(c: Condition): Frame {
    const id = conditionId(c);
    const known = this.#frames.get(id);
    if (known !== undefined) return known;
    const frame = new Frame(this.#machine, this.#scene(c), this.#latest);
    this.#frames.set(id, frame);
    this.#latest = frame;
    return frame;
  }

  #track(c: Condition): Track {
    const key = `${handsText(c.hands)}|${c.corner}|${c.unknownLive}`;
    const known = this.#tracks.get(key);
    if (known !== undefined) return known;
    const track = this.#sameTrack(c) ?? this.#follow(c);
    this.#tracks.set(key, track);
    return track;
  }

  #follow(c: Condition): Track {
    return followTrack(this.#machine, (state) => this.#frameIn(c, state), this.states);
  }

  /** The corner of every source is the typical and quiet one where nothing asks for sun or shore power. */
  #sameTrack(c: Condition): Track | null {
    if (c.corner !== 'every-source' || !sameFacts(cornerOf(c.corner), cornerOf('typical-quiet'))) return null;
    const quiet: Condition = { ...c, corner: 'typical-quiet' };
    const track = this.#track(quiet);
    const asks = this.states.some(
      ({ id }) => (this.#frameIn(quiet, id).looked & (BIT.sun | BIT.shore)) !== 0,
    );
    return asks ? null : track;
  }

  /** The frame of a state of a track. */
  #frameIn(c: Condition, state: StateId): Frame {
    return this.#frame({
      ...c,
      state,
      open: null,
      setPoint: null,
      shore: shoreIn(state, c.corner),
      sun: sunIn(c.corner),
    });
  }

  solve(c: Condition): readonly SolvedRun[] {
    const id = conditionId(c);
    const known = this.#solved.get(id);
    if (known !== undefined) return known;
    if (this.#setRefused) throw TakesTheSet.thrown;
    const arrived = this.#arrive(c);
    const solved = arrived.map((a) => new SolvedRun(this.#machine, a.run, c, id, a.cameFrom));
    this.#solved.set(id, solved);
    return solved;
  }

  #arrive(c: Condition): readonly Arrived[] {
    const track = this.#track(c);
    if (c.open === null && c.setPoint === null) return track.arrived.get(c.state) ?? [];
    // A device is opened in the state as it stands: entered with what the state left in memory.
    const entries: readonly Entry[] =
      c.open === null
        ? (track.entries.get(c.state) ?? [])
        : (track.arrived.get(c.state) ?? []).flatMap((a) =>
            a.run.outcome.memories.map((memory) => ({ memory, cameFrom: [...a.cameFrom, c.state] })),
          );
    return runFrom(this.#machine, this.#frame(c), entries);
  }

  get judged(): readonly Condition[] {
    return this.#judged ?? atOnce(this.#listing());
  }

  all(): readonly SolvedRun[] {
    return this.#all ?? atOnce(this.#solving());
  }

  windows(): readonly Window[] {
    return this.#windows ?? atOnce(this.#sweeping());
  }

  /** The judged set, solved; in steps. */
  *#solving(): InSteps<readonly SolvedRun[]> {
    const solved: (readonly SolvedRun[])[] = [];
    for (const c of this.#judged ?? (yield* this.#listing())) {
      solved.push(this.solve(c));
      yield;
    }
    this.#all ??= solved.flat();
    return this.#all;
  }

  *#listing(): InSteps<readonly Condition[]> {
    if (this.#setRefused) throw TakesTheSet.thrown;
    const openable = [...this.parts.values()]
      .filter((p) => p.ability.protects !== undefined || p.ability.switches?.isolates === true)
      .map((p) => p.id);
    const unknownIn = new Set(
      this.states.filter((s) => this.#some((p) => unknownAt(p, s.id))).map((s) => s.id),
    );
    const base = judgedSet(this.states, this.handSets, this.normalHands, openable, unknownIn);
    this.#judged ??= [...base, ...(yield* this.#nearest(base))];
    return this.#judged;
  }

  /** Where a charger is off or cycling at a corner, the nearest set point at which it is settled on. */
  *#nearest(base: readonly Condition[]): InSteps<readonly Condition[]> {
    const extra = new Map<string, Condition>();
    for (const w of this.#windows ?? (yield* this.#sweeping())) {
      const hands = handsText(w.hands);
      for (const c of base) {
        if (c.state !== w.state || c.open !== null || handsText(c.hands) !== hands) continue;
        yield;
        if (this.solve(c).every((s) => s.outcome === 'settled' && s.isOn(w.part))) continue;
        const usual = this.#scene(c).setPoint?.sourced.value;
        if (usual === undefined) continue;
        const volts = nearestOn(w.spans, w.envelope, usual);
        if (volts === null || Math.abs(volts - usual) < 1e-9) continue;
        const condition = { ...c, setPoint: volts };
        extra.set(conditionId(condition), condition);
      }
    }
    return [...extra.values()];
  }

  *#sweeping(): InSteps<readonly Window[]> {
    if (this.#setRefused) throw TakesTheSet.thrown;
    this.#windows ??= yield* sweepInSteps(this.#machine, {
      states: this.states,
      handSets: this.handSets,
      blocks: nominalVehicle(this.build) / 12,
      envelopeOf: (state) => this.#envelopes.get(state) ?? null,
      entriesOf: (c) => this.#track(c).entries.get(c.state) ?? [],
      sceneOf: (c) => this.#scene(c),
      like: () => this.#latest,
    });
    return this.#windows;
  }

  short(c: ShortCase): ShortPoint {
    const key = shortKey(c);
    const known = this.#shorts.get(key);
    if (known !== undefined) return known;
    const point = solveShort(this.#shortContext, c);
    this.#shorts.set(key, point);
    return point;
  }

  ampacity(wire: Id): readonly Ampacity[] {
    return this.#heating.ampacity(wire, () => this.all().map((s) => s.mostAmps));
  }
}

const NOTHING_OPEN: ReadonlySet<Id> = new Set();

const NO_WIRES = new Float64Array();
