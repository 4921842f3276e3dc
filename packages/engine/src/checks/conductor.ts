/** Loading and temperature of every conductor: the greatest continuous current against its ampacity; brief states by heat. */
import type { Check, Judgement, LaidWire, Operation, Remedy, Step } from '../contracts/index.ts';
import { steadyTemperature } from '../devices/index.ts';
import { TOPICS } from '../practices/index.ts';
import { againstAmpacity, type AmpacityVerdict } from './support/ampacity.ts';
import { worstBrief, type Brief } from './support/brief-heat.ts';
import { need } from './support/figures-needed.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { continuousInWire, lastingOf, type Continuous } from './support/loading.ts';
import { chargersIn, chargerSteps } from './support/loading-steps.ts';
import { thickerOne } from './support/remedies.ts';
import { amps, atMost, celsius, number, seconds, square } from './support/short-text.ts';
import { whereWords } from './support/words.ts';

export const conductor: Check = {
  id: 'conductor',
  title: 'Loading and temperature of a conductor',
  family: 'conductors',
  danger: true,
  statements: TOPICS.loading,
  subjects: (op) => [...op.wires.values()].map((w) => ({ id: w.id, label: w.id })),
  judge(subject, op) {
    const wire = op.wires.get(subject.id);
    if (wire === undefined) throw new Error(`no wire ${subject.id}`);
    return judge(wire, op);
  },
  remedies(subject, op): readonly Remedy[] {
    const wire = op.wires.get(subject.id);
    return wire === undefined ? [] : thickerOne(op, wire);
  },
  failing: example('4 mm2', '40 A'),
  passing: example('25 mm2', '40 A'),
};

function example(size: string, load: string): string {
  return `loomwright: 1
title: A load that is always on
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C }, rear: { label: Rear, hottest: 40 °C } }
routes: [ { from: locker, to: rear, length: 3 m, in: conduit } ]
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 200 Ah }
  bank-fuse: { kind: fuse, at: locker, family: bolt-down, rating: 60 A, interrupts: 6 kA }
  cooler: { kind: load, at: rear, current: ${load}, on: always }
wires:
  lead: { from: bank.+, to: bank-fuse.line, size: 25 mm2, insulation: pvc-70, length: 15 cm }
  feed: { from: bank-fuse.load, to: cooler.+, size: ${size}, insulation: pvc-70 }
  back: { from: cooler.-, to: bank.-, size: ${size}, insulation: pvc-70 }
`;
}

function judge(wire: LaidWire, op: Operation): Judgement {
  if (wire.areaMm2 === null)
    return missing(`Whether ${wire.id} is thick enough cannot be said: its size is not known.`, [
      need(`wires.${wire.id}.size`, `size of ${wire.id}`, 'its ampacity', 'read it on the cable'),
    ]);
  const brief = worstBrief(op, wire.id);
  const load = continuousInWire(op, wire.id);
  const verdict = againstAmpacity(op, wire, load.amps);
  if (brief !== null && brief.heat > 1 + 1e-9 && verdict.holds !== false) return byHeat(wire, brief);
  return byAmpacity(wire, load, verdict, op);
}

function byAmpacity(wire: LaidWire, load: Continuous, verdict: AmpacityVerdict, op: Operation): Judgement {
  const { limit } = verdict;
  // No other condition has more than the greatest.
  const over =
    limit !== null && load.solved.solved !== null && !atMost(load.solved.amps, limit)
      ? overs(wire, limit, op, load)
      : 0;
  return judgement({
    holds: load.amps === 0 ? true : verdict.holds,
    says: () => sentence(wire, load, verdict),
    value: { value: load.amps, unit: 'A' },
    limit: { value: limit, unit: 'A' },
    margin: limit === null ? null : limit - load.amps,
    worst: load.solved.solved?.id ?? null,
    others: over,
    working: () => [...loadSteps(wire, load), ...verdict.steps(), ...temperatureStep(wire, load, verdict)],
    restsOn: () => [...load.bases, ...verdict.air],
    limits: verdict.limits,
    missing: load.amps === 0 ? [] : verdict.missing,
    about: [wire.id, ...chargersIn(load)],
  });
}

/** Other conditions that are over the limit as well. */
function overs(wire: LaidWire, limit: number, op: Operation, load: Continuous): number {
  const ids = new Set<string>();
  for (const s of lastingOf(op)) if (!atMost(s.wireRms(wire.id), limit)) ids.add(s.id);
  ids.delete(load.solved.solved?.id ?? '');
  return ids.size;
}

function sentence(wire: LaidWire, load: Continuous, verdict: AmpacityVerdict): string {
  const carries = `${wire.id} carries ${amps(load.amps)} for long`;
  if (load.amps === 0) return `${wire.id} carries nothing in any state that lasts.`;
  if (verdict.limit === null || verdict.holds === null) return `${carries}; what it may carry is not known.`;
  if (!verdict.holds) return `${carries}; it may carry only ${amps(verdict.limit)}.`;
  return `${carries} and may carry ${amps(verdict.limit)}.`;
}

function loadSteps(wire: LaidWire, load: Continuous): readonly Step[] {
  const { solved } = load.solved;
  const lines: Step[] = [];
  if (solved !== null) {
    const what =
      solved.outcome === 'cycle' ? 'Greatest solved (root mean square of the cycle)' : 'Greatest solved';
    lines.push(step(what, whereWords(solved), load.solved.amps, 'A', { about: [wire.id] }));
  }
  return [...lines, ...chargerSteps(load)];
}

function temperatureStep(wire: LaidWire, load: Continuous, verdict: AmpacityVerdict): readonly Step[] {
  const chosen = verdict.chosen;
  if (chosen === null || chosen.amps === null) return [];
  const t = steadyTemperature(chosen.airC, wire.rating, load.amps, chosen.amps);
  if (t === null) return [];
  const beyond = t.beyondModel ? ' (beyond the range of this formula)' : '';
  const how = `${celsius(chosen.airC)} + ${number(wire.rating - chosen.airC)} K × (${amps(load.amps)} / ${amps(chosen.amps)})²; insulation ${celsius(wire.rating)}${beyond}`;
  return [step(`Temperature of ${wire.id}`, how, t.celsius, '°C', { about: [wire.id] })];
}

function byHeat(wire: LaidWire, brief: Brief): Judgement {
  const k = wire.k.sourced.value;
  return judgement({
    holds: false,
    says: () =>
      `${wire.id} carries ${amps(brief.amps)} for ${seconds(brief.seconds)}: ${number(brief.heat * 100)} % of the heat that it withstands.`,
    value: { value: brief.heat * 100, unit: '%' },
    limit: { value: 100, unit: '%' },
    margin: 100 - brief.heat * 100,
    worst: brief.solved.id,
    working: () => [
      step('Current', whereWords(brief.solved), brief.amps, 'A', { about: [wire.id] }),
      step(
        'Heat',
        `${amps(brief.amps)}² × ${seconds(brief.seconds)} / (${number(k)} × ${square(wire.areaMm2 ?? 0)})²`,
        brief.heat * 100,
        '%',
        { source: wire.k.sourced.source },
      ),
    ],
    limits: [wire.k],
    about: [wire.id],
  });
}
