/** Smallest conductors: thinner single wires break where they are clamped and shaken. */
import type { Check, Judgement, LaidWire, Operation, Practice, Remedy } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { formatSize, parseSize } from '../quantity/index.ts';
import { smallestConductor, type Sourced } from '../reference/index.ts';
import { need } from './support/figures-needed.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { continuousInWire } from './support/loading.ts';
import { amps, metres, square } from './support/short-text.ts';

export const mechanicalSize: Check = {
  id: 'mechanical-size',
  title: 'Smallest conductor',
  family: 'workmanship',
  danger: false,
  statements: TOPICS.smallestSize,
  subjects: (op) => [...op.wires.values()].map((w) => ({ id: w.id, label: w.id })),
  judge(subject, op, practice) {
    const wire = op.wires.get(subject.id);
    if (wire === undefined) throw new Error(`no wire ${subject.id}`);
    return judge(wire, op, practice);
  },
  remedies(subject, op, _judgement, practice): readonly Remedy[] {
    const wire = op.wires.get(subject.id);
    const size = wire === undefined ? null : sizeFor(rules[practice.id], wire);
    return size === null
      ? []
      : [{ title: `${size} for ${subject.id}`, changes: [{ set: ['wires', subject.id, 'size'], to: size }] }];
  },
  failing: example('0.5 mm2'),
  passing: example('1 mm2'),
};

function example(size: string): string {
  return `loomwright: 1
title: A signal wire
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  signal-fuse: { kind: fuse, at: locker, family: blade-f, rating: 3 A }
  lamp: { kind: load, at: locker, current: 0.5 A }
wires:
  lead: { from: bank.+, to: signal-fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }
  branch: { from: signal-fuse.load, to: lamp.+, size: ${size}, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
`;
}

interface Rule {
  readonly single: Sourced;
  readonly sheathed: Sourced;
  /** Shorter ones are left out, m. */
  readonly shorterThan: number;
  /** Circuits of less than this are left out, A; 0: none. */
  readonly below: number;
  readonly sizes: readonly [single: string, sheathed: string];
}

/** The 1 A and the pigtails under 178 mm: 33 CFR 183.425; 200 mm: ISO 10133:2012, 7.7. */
const rules: Readonly<Record<Practice['id'], Rule>> = {
  'north-america': {
    single: smallestConductor.cfr,
    sheathed: smallestConductor.cfrSheathed,
    shorterThan: 0.178,
    below: 1,
    sizes: ['16 AWG', '18 AWG'],
  },
  europe: {
    single: smallestConductor.iso,
    sheathed: smallestConductor.isoSheathed,
    shorterThan: 0.2,
    below: 0,
    sizes: ['1 mm2', '0.75 mm2'],
  },
};

const sizeFor = (rule: Rule, wire: LaidWire): string => rule.sizes[wire.sheathed ? 1 : 0];

function judge(wire: LaidWire, op: Operation, practice: Practice): Judgement {
  if (wire.areaMm2 === null) {
    const wanted = [
      need(
        `wires.${wire.id}.size`,
        `size of ${wire.id}`,
        'a thin wire breaks where it is clamped',
        'read it on the cable',
      ),
    ];
    return missing(`Whether ${wire.id} is thick enough to last is not known.`, wanted, { about: [wire.id] });
  }
  const rule = rules[practice.id];
  const least = wire.sheathed ? rule.sheathed : rule.single;
  const excuse = excuseOf(wire, op, rule);
  const holds = excuse !== null || wire.areaMm2 >= least.value * (1 - 1e-3);
  const size = parseSize(wire.sizeText.replaceAll('\u00A0', ' '));
  const written = size.ok ? formatSize(size.size) : square(wire.areaMm2);
  return judgement({
    holds,
    // A boat rule: in a vehicle a thinner signal wire is usual, and it still works.
    severity: 'advice',
    says: says(wire, written, least, holds, excuse),
    value: { value: wire.areaMm2, unit: 'mm²' },
    limit: { value: least.value, unit: 'mm²', ...(excuse === null ? {} : { words: excuse }) },
    margin: wire.areaMm2 - least.value,
    working: () => [
      step(
        `Smallest ${wire.sheathed ? 'conductor in a sheath' : 'single conductor'}`,
        excuse ?? '',
        least.value,
        'mm²',
        {
          source: least.source,
          about: [wire.id],
        },
      ),
    ],
    about: [wire.id],
  });
}

/** Why the rule leaves the wire out; null: it does not. */
function excuseOf(wire: LaidWire, op: Operation, rule: Rule): string | null {
  const length = wire.length?.sourced.value ?? null;
  if (length !== null && length <= rule.shorterThan * (1 + 1e-9))
    return `shorter than ${metres(rule.shorterThan)}`;
  if (rule.below === 0) return null;
  // The rule speaks of the current that flows, not of what the device would allow.
  const flows = continuousInWire(op, wire.id).amps;
  return flows < rule.below ? `a circuit of less than ${amps(rule.below)}` : null;
}

function says(
  wire: LaidWire,
  written: string,
  least: Sourced,
  holds: boolean,
  excuse: string | null,
): string {
  if (excuse !== null) return `${wire.id} (${written}) is left out of the rule: ${excuse}.`;
  if (holds) return `${wire.id} (${written}) is not thinner than ${square(least.value)}.`;
  return `${wire.id} (${written}) is thinner than ${square(least.value)}: it breaks where it is clamped and shaken.`;
}
