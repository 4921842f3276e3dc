/** The machine of an operation with troubles laid on: same circuit and plan, other numbers in a few places. */
import type { ElementOf, Id, LaidWire } from '../../contracts/index.ts';
import { SceneSeen, type Circuit, type CircuitPart, type Scene } from '../circuit.ts';
import type { Entry, Varying } from '../memo.ts';
import { Desk } from '../desk.ts';
import type { Machine } from '../run.ts';
import type { Trouble } from './types.ts';

/** A copy that shares the plan; its arrays of temperatures are its own, since what they make of wires is remembered by them. */
export function troubled(m: Machine, troubles: readonly Trouble[], scene: Scene): Machine {
  const circuit = troubledCircuit(m, troubles, scene);
  const desk = new Desk(circuit);
  const cooled = new Map<Float64Array, Float64Array>();
  return {
    ...m,
    circuit,
    desk,
    // Other wires: nothing that the sound machine knows may be taken for it.
    cool: (at) => {
      const cool = m.cool(at);
      const own = cooled.get(cool) ?? cool.slice();
      cooled.set(cool, own);
      return own;
    },
    heated: (amps, at) => m.heated(amps, at).slice(),
  };
}

function troubledCircuit(m: Machine, troubles: readonly Trouble[], scene: Scene): Circuit {
  const { circuit } = m;
  const more = extraOhms(troubles);
  const stuck = new Map(troubles.flatMap((t) => (t.type === 'stuck' ? [[t.part, t.at] as const] : [])));
  const wires = circuit.wires.map((wire, i) => {
    const extra = more.get(wire.id);
    // A measured path scales the whole wire: what is laid on must come out as it was said.
    return extra === undefined ? wire : withJoints(wire, extra, circuit.scale[circuit.wireOffset + i] ?? 1);
  });
  const parts = circuit.parts.map((part) => {
    const at = stuck.get(part.placed.id);
    return at === undefined ? part : withStuckContacts(m, part, at, scene);
  });
  return {
    ...circuit,
    wires,
    parts,
    byId: new Map(parts.map((part) => [part.placed.id, part])),
    devices: parts.filter((part) => part.device >= 0),
  };
}

type Ends = readonly [from: number, to: number];

/** Ohms laid on the two joints of each wire; Infinity where it is broken. */
export function extraOhms(troubles: readonly Trouble[]): ReadonlyMap<Id, Ends> {
  const more = new Map<Id, Ends>();
  for (const trouble of troubles) {
    if (trouble.type === 'stuck') continue;
    const [from, to] = more.get(trouble.wire) ?? [0, 0];
    if (trouble.type === 'open-wire') more.set(trouble.wire, [Infinity, to]);
    else if (trouble.end === 'from') more.set(trouble.wire, [from + trouble.ohms, to]);
    else more.set(trouble.wire, [from, to + trouble.ohms]);
  }
  return more;
}

function withJoints(wire: LaidWire, [from, to]: Ends, scale: number): LaidWire {
  const [a, b] = wire.joints;
  const plus = (basis: typeof a, ohms: number): typeof a => ({
    ...basis,
    sourced: { ...basis.sourced, value: basis.sourced.value + ohms / scale },
  });
  return { ...wire, joints: [plus(a, from), plus(b, to)] };
}

function withStuckContacts(m: Machine, part: CircuitPart, at: 'closed' | 'open', scene: Scene): CircuitPart {
  const contacts = contactsOf(part);
  const closed = at === 'open' ? new Map<number, number>() : closedOhms(m, part, contacts, scene);
  const patched = new WeakMap<Entry<readonly ElementOf<number>[]>, Entry<readonly ElementOf<number>[]>>();
  return {
    ...part,
    elements: (asked) => {
      const entry = part.elements(asked);
      const known = patched.get(entry);
      if (known !== undefined) return known;
      const made = entry.made.map((element, i) =>
        contacts.includes(i) && element.type === 'resistor'
          ? { ...element, ohms: at === 'open' ? Infinity : (closed.get(i) ?? element.ohms) }
          : element,
      );
      const own = { ...entry, made };
      patched.set(entry, own);
      return own;
    },
  };
}

/** Which of a part's elements are contacts; of a protective device the first. */
function contactsOf(part: CircuitPart): readonly number[] {
  const { switches, protects } = part.placed.ability;
  if (switches !== undefined) return switches.contacts.map((contact) => contact.element);
  return protects === undefined ? [] : [0];
}

/** What each contact measures when it is closed, found by trying every position and memory. */
function closedOhms(
  m: Machine,
  part: CircuitPart,
  contacts: readonly number[],
  scene: Scene,
): ReadonlyMap<number, number> {
  const ohms = new Map<number, number>();
  const base = new SceneSeen(m.ctx, scene).by(part.placed, 0, null);
  const memories = part.memory(base).made?.values.map((_name, i) => i) ?? [0];
  for (const memory of memories) {
    for (const closed of [true, false]) {
      const asked: Varying = { ...base, memory, closed, opened: false };
      const { made } = part.elements(asked);
      for (const i of contacts) {
        const element = made[i];
        if (element?.type === 'resistor' && Number.isFinite(element.ohms))
          ohms.set(i, Math.min(element.ohms, ohms.get(i) ?? Infinity));
      }
    }
  }
  return ohms;
}
