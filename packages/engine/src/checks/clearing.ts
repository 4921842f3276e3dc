/** Clearing: a short anywhere on a wire is cleared before its insulation passes its final temperature. */
import type { Ampacity, Check, Judgement, LaidWire, Need, Operation, Remedy } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import {
  devicesFor,
  faultBases,
  fedByBattery,
  returnTrials,
  servedBy,
  trialsOf,
  unratedFor,
} from './support/clearing-cases.ts';
import type { Governed, Result } from './support/clearing-run.ts';
import { byTables, clearingLimits } from './support/clearing-tables.ts';
import { clearingSteps, clearingSentence } from './support/clearing-words.ts';
import { netOf } from './support/conductors.ts';
import { crankingWires } from './support/cranking.ts';
import { exemptWires } from './support/exposure.ts';
import { need, partNeed } from './support/figures-needed.ts';
import { judgement, missing } from './support/judgement.ts';
import { rate, ratingsWithin, thickerOne } from './support/remedies.ts';

export const clearing: Check = {
  id: 'clearing',
  title: 'Clearing of a short circuit before the wire burns',
  family: 'protection',
  danger: true,
  statements: TOPICS.clearing,
  subjects: (op) =>
    [...op.wires.values()].filter((w) => isJudged(op, w)).map((w) => ({ id: w.id, label: w.id })),
  judge(subject, op, practice) {
    const wire = op.wires.get(subject.id);
    if (wire === undefined) throw new Error(`no wire ${subject.id}`);
    if (exemptWires(op, practice).has(wire.id)) return exempt(wire);
    return judge(wire, op);
  },
  remedies: (subject, op, judged) => remedies(subject.id, op, judged),
  failing: example('2.5 mm2', '60 A'),
  passing: example('16 mm2', '60 A'),
};

function example(size: string, rating: string): string {
  return `loomwright: 1
title: A branch behind a breaker
practice: europe
systems: { vehicle: 12 V }
places: { bay: { label: Battery bay, hottest: 30 °C }, rear: { label: Rear, hottest: 30 °C } }
routes: [ { from: bay, to: rear, length: 5 m, in: free } ]
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  main: { kind: breaker, at: bay, rating: ${rating}, reset: manual, interrupts: 5 kA, curve: [{ at: 200 %, opens: 4..40 s }, { at: 400 %, opens: 0.6..5 s }, { at: 1000 %, opens: 0.12..0.4 s }] }
  lamp: { kind: load, at: rear, current: 5 A }
wires:
  lead: { from: battery.+, to: main.line, size: 25 mm2, insulation: pvc-70, length: 15 cm }
  branch: { from: main.load, to: lamp.+, size: ${size}, insulation: pvc-70 }
  back: { from: lamp.-, to: battery.-, size: ${size}, insulation: pvc-70 }
`;
}

/** Wires that a battery feeds, and the returns that carry a short of theirs; the cranking motor's cable is left out. */
function isJudged(op: Operation, wire: LaidWire): boolean {
  const net = netOf(op);
  if (net.isReturn(wire.from) || net.isReturn(wire.to))
    return servedBy(op, wire.id).some((w) => isThinner(wire, w));
  return fedByBattery(op, wire) && !crankingWires(op).has(wire.id);
}

/** What the wire withstands, in A·√s. */
const strength = (w: LaidWire): number => w.k.sourced.value * (w.areaMm2 ?? 0);

/** A return as thick as what it serves is judged with it. */
const isThinner = (back: LaidWire, wire: LaidWire): boolean => strength(back) < strength(wire) * (1 - 1e-9);

const exempt = (wire: LaidWire): Judgement =>
  judgement({
    holds: true,
    says: `${wire.id} is short enough up to its own device: its distance is judged, not its clearing.`,
    about: [wire.id],
  });

function judge(wire: LaidWire, op: Operation): Judgement {
  const needs = unknowns(op, wire);
  if (needs.length > 0)
    return missing(`Whether a short on ${wire.id} is cleared in time cannot be said.`, needs, {
      about: [wire.id],
    });
  const served = servedBy(op, wire.id);
  const onReturn = netOf(op).isReturn(wire.from);
  const devices = [
    ...new Map((onReturn ? served : [wire]).flatMap((w) => devicesFor(op, w)).map((d) => [d.id, d])).values(),
  ];
  const trials = onReturn ? returnTrials(op, wire, devices) : trialsOf(op, wire, devices);
  const chosen = byTables(op, wire, trials, devices);
  if (chosen === null)
    return judgement({
      holds: true,
      says: `No battery drives a fault current into ${wire.id}.`,
      about: [wire.id],
    });
  return verdict(wire, op, chosen.ampacity, chosen.run);
}

function unknowns(op: Operation, wire: LaidWire): readonly Need[] {
  const why = 'the heat that a short leaves in the wire';
  const needs: Need[] = [];
  if (wire.areaMm2 === null)
    needs.push(need(`wires.${wire.id}.size`, `size of ${wire.id}`, why, 'read it on the cable'));
  if (wire.length === null)
    needs.push(need(`wires.${wire.id}.length`, `length of ${wire.id}`, why, 'tape along the wire', 'tape'));
  return [
    ...needs,
    ...unratedFor(op, wire).map((id) => partNeed(id, 'rating', `when it opens on a short of ${wire.id}`)),
  ];
}

function verdict(wire: LaidWire, op: Operation, ampacity: Ampacity | null, run: Governed): Judgement {
  const { worst } = run;
  const shared = {
    working: () => clearingSteps(op, wire, run, ampacity),
    restsOn: () => [wire, ...servedBy(op, wire.id)].flatMap((w) => faultBases(op, w)),
    limits: () => clearingLimits(op, wire, ampacity, run),
    about: [wire.id, ...openers(worst)],
  };
  const says = (): string => clearingSentence(op.wires, wire, worst);
  if (worst.ending === 'no-figure')
    return missing(says, noTimes(op, wire, worst), { ...shared, ...noNumber(worst) });
  if (worst.ending === 'never') return judgement({ ...shared, ...noNumber(worst), holds: false, says });
  if (worst.ending === 'steady') {
    const celsius = worst.celsius ?? 0;
    return judgement({
      ...shared,
      holds: true,
      says,
      value: { value: celsius, unit: '°C' },
      limit: { value: wire.finalTemperature, unit: '°C' },
      margin: wire.finalTemperature - celsius,
    });
  }
  return judgement({
    ...shared,
    holds: worst.ending === 'withstood',
    says,
    value: { value: worst.heat * 100, unit: '%' },
    limit: { value: 100, unit: '%' },
    margin: 100 - worst.heat * 100,
  });
}

const noNumber = (worst: Result): Pick<Judgement, 'value' | 'limit'> => ({
  value: { value: null, unit: '%', words: worst.ending === 'never' ? 'never cleared' : 'no opening time' },
  limit: { value: 100, unit: '%' },
});

function openers(worst: Result): readonly string[] {
  const steps = worst.clearing?.steps ?? [];
  const ids = [...steps.map((s) => s.opens), ...(worst.clearing?.withoutFigure ?? [])];
  return ids.filter((id) => id !== null);
}

function noTimes(op: Operation, wire: LaidWire, worst: Result): readonly Need[] {
  return (worst.clearing?.withoutFigure ?? []).map((id) => {
    const label = op.parts.get(id)?.ability.protects?.family ?? '';
    const field = label === '' || label === 'unknown' ? 'curve' : 'clearing';
    return partNeed(id, field, `when it surely opens at the fault current of ${wire.id}`);
  });
}

function remedies(id: string, op: Operation, judged: Judgement): readonly Remedy[] {
  const wire = op.wires.get(id);
  if (wire === undefined) return [];
  const smaller = judged.about.flatMap((part) => {
    const rating = op.parts.get(part)?.ability.protects?.rating?.sourced.value;
    return rating === undefined
      ? []
      : ratingsWithin(0, rating * 0.99)
          .slice(-2)
          .toReversed()
          .map((r) => rate(part, r));
  });
  return [...thickerOne(op, wire), ...smaller];
}
