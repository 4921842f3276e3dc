/** Rating: the sustained current that the devices allow into a wire is not above its ampacity. */
import type {
  Check,
  Judgement,
  LaidWire,
  Operation,
  Practice,
  Remedy,
  Step,
  Subject,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { againstAmpacity } from './support/ampacity.ts';
import { exemptWires } from './support/exposure.ts';
import { sustainedInto, type Sustained } from './support/flow.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { netOf } from './support/conductors.ts';
import { rate, ratingsWithin, thickerOne } from './support/remedies.ts';
import { amps, factor } from './support/short-text.ts';
import { listed } from './support/words.ts';

/** Greatest rating over ampacity below 50 V in 33 CFR 183.455: printed beside the verdict, never used for it. */
const OLDER_SHARE = 1.5;

export const rating: Check = {
  id: 'rating',
  title: 'Rating of protection against the wire',
  family: 'protection',
  danger: true,
  statements: TOPICS.rating,
  subjects(op) {
    const net = netOf(op);
    return [...op.wires.values()]
      .filter((w) => !net.isReturn(w.from) && !net.isReturn(w.to) && sustainedInto(op, w) !== null)
      .map((w) => ({ id: w.id, label: w.id }));
  },
  judge(subject, op, practice) {
    const wire = op.wires.get(subject.id);
    const flow = wire === undefined ? null : sustainedInto(op, wire);
    if (wire === undefined || flow === null)
      return judgement({ holds: true, says: `Nothing feeds ${subject.id} through a device.` });
    if (exemptWires(op, practice).has(wire.id)) return exempt(wire, flow);
    return judge(wire, flow, op, practice);
  },
  remedies: (subject, op, _judgement, practice) => remedies(subject, op, practice),
  failing: `loomwright: 1
title: A thin wire behind a large fuse
practice: north-america
systems: { vehicle: 12 V }
places: { bay: { label: Battery bay, hottest: 40 °C }, rear: { label: Rear, hottest: 40 °C } }
routes: [ { from: bay, to: rear, length: 4 m, in: free } ]
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  main-fuse: { kind: fuse, at: bay, family: bolt-down, rating: 100 A, interrupts: 6 kA }
  lamp: { kind: load, at: rear, current: 5 A }
wires:
  lead: { from: battery.+, to: main-fuse.line, size: 2 AWG, insulation: pvc-105, length: 10 cm }
  branch: { from: main-fuse.load, to: lamp.+, size: 10 AWG, insulation: pvc-105 }
  back: { from: lamp.-, to: battery.-, size: 10 AWG, insulation: pvc-105 }
`,
  passing: `loomwright: 1
title: The wire carries what its fuse allows
practice: north-america
systems: { vehicle: 12 V }
places: { bay: { label: Battery bay, hottest: 40 °C }, rear: { label: Rear, hottest: 40 °C } }
routes: [ { from: bay, to: rear, length: 4 m, in: free } ]
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  main-fuse: { kind: fuse, at: bay, family: bolt-down, rating: 40 A, interrupts: 6 kA }
  lamp: { kind: load, at: rear, current: 5 A }
wires:
  lead: { from: battery.+, to: main-fuse.line, size: 2 AWG, insulation: pvc-105, length: 10 cm }
  branch: { from: main-fuse.load, to: lamp.+, size: 10 AWG, insulation: pvc-105 }
  back: { from: lamp.-, to: battery.-, size: 10 AWG, insulation: pvc-105 }
`,
};

/** Its distance is its verdict. */
function exempt(wire: LaidWire, flow: Sustained): Judgement {
  return judgement({
    holds: true,
    says: `${wire.id} is short enough up to its own device: its distance is judged, not the rating behind it.`,
    value: { value: Number.isFinite(flow.amps) ? flow.amps : null, unit: 'A' },
    about: [wire.id],
  });
}

function judge(wire: LaidWire, flow: Sustained, op: Operation, practice: Practice): Judgement {
  const about = [wire.id, ...flow.limits.map((l) => l.part)];
  if (!Number.isFinite(flow.amps)) {
    const says = `What may flow into ${wire.id} in the long run is not known.`;
    return missing(says, flow.missing, { value: { value: null, unit: 'A', words: 'not known' }, about });
  }
  const verdict = againstAmpacity(op, wire, flow.amps, practice.ratingFactor);
  const base = verdict.chosen?.amps ?? null;
  const working = (): readonly Step[] => [
    ...flowSteps(wire, flow),
    ...verdict.steps(),
    ...shareSteps(practice, base),
    ...olderStep(flow, base),
  ];
  const limit = { value: verdict.limit, unit: 'A' };
  return judgement({
    holds: verdict.holds,
    says: () => sentence(wire, flow, verdict.holds, verdict.limit),
    value: { value: flow.amps, unit: 'A' },
    limit,
    margin: verdict.limit === null ? null : verdict.limit - flow.amps,
    working,
    restsOn: () => [...flow.limits.map((l) => l.basis), ...verdict.air],
    limits: verdict.limits,
    missing: verdict.missing,
    about,
  });
}

function sentence(wire: LaidWire, flow: Sustained, holds: boolean | null, limit: number | null): string {
  const who = listed([...new Set(flow.limits.map((l) => l.label))]);
  const into = `${who === '' ? 'The devices' : who} ${flow.limits.length > 1 ? 'allow' : 'allows'} ${amps(flow.amps)} into ${wire.id}`;
  if (holds === null || limit === null) return `${into}; what the wire may carry is not known.`;
  return holds ? `${into}, which may carry ${amps(limit)}.` : `${into}, which may carry only ${amps(limit)}.`;
}

function flowSteps(wire: LaidWire, flow: Sustained): readonly Step[] {
  const how = flow.limits.map((l) => `${amps(l.amps)} (${l.label})`).join(' + ');
  return [
    step(`Sustained current into ${wire.id}`, how, flow.amps, 'A', {
      about: [wire.id, ...flow.limits.map((l) => l.part)],
    }),
  ];
}

function shareSteps(practice: Practice, ampacity: number | null): readonly Step[] {
  if (practice.ratingFactor === 1 || ampacity === null) return [];
  const how = `${factor(practice.ratingFactor)} × ${amps(ampacity)}`;
  return [step('Permitted sustained current', how, practice.ratingFactor * ampacity, 'A')];
}

/** The older rule is named so that nobody is surprised by another answer elsewhere. */
function olderStep(flow: Sustained, ampacity: number | null): readonly Step[] {
  if (ampacity === null) return [];
  const most = OLDER_SHARE * ampacity;
  const verdict = flow.amps <= most * (1 + 1e-9) ? 'would allow it' : 'would not allow it either';
  return [
    step('For comparison only', `150 % × ${amps(ampacity)}: the older rule ${verdict}`, most, 'A', {
      source: '33 CFR 183.455 (below 50 V)',
    }),
  ];
}

function remedies(subject: Subject, op: Operation, practice: Practice): readonly Remedy[] {
  const wire = op.wires.get(subject.id);
  const flow = wire === undefined ? null : sustainedInto(op, wire);
  if (wire === undefined || flow === null) return [];
  const limit = againstAmpacity(op, wire, flow.amps, practice.ratingFactor).limit;
  const devices = flow.limits.filter((l) => op.parts.get(l.part)?.ability.protects !== undefined);
  const only = devices.length === 1 ? devices[0] : undefined;
  const smaller = limit === null || only === undefined ? [] : ratingsWithin(0, limit).slice(-2).toReversed();
  return [...thickerOne(op, wire), ...smaller.map((r) => rate(only?.part ?? '', r))];
}
