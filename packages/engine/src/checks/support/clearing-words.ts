/** The words and working lines of a clearing verdict. */
import type { Ampacity, LaidWire, Operation, ShortCase, Step } from '../../contracts/index.ts';
import { fastSeconds, withstandSeconds, type ClearingStep } from '../../devices/index.ts';
import type { Governed, Result } from './clearing-run.ts';
import { step } from './judgement.ts';
import { intoWords, whereWords } from './shorts.ts';
import { amps, celsius, number, ohms, seconds, square } from './short-text.ts';
import { listed } from './words.ts';

type Wires = ReadonlyMap<string, LaidWire>;

/** What happens in the trial that governs. */
export function clearingSentence(wires: Wires, wire: LaidWire, worst: Result): string {
  const fault = `${amps(worst.amps)} in ${wire.id} (short ${placeWords(wires, worst.trial.fault)})`;
  const clearing = worst.clearing;
  switch (worst.ending) {
    case 'steady':
      return `Of all short circuits on ${wire.id} none heats it past its final temperature, not even for good: ${celsius(worst.celsius ?? 0)} at ${amps(worst.amps)}.`;
    case 'withstood':
      return `${fault}: cleared with ${number(worst.heat * 100)} % of what the wire withstands.`;
    case 'burnt':
      return `${fault}: ${openAt(openersOf(clearing?.steps ?? []))} only after ${seconds(clearing?.seconds ?? 0)}, with ${number(worst.heat * 100)} % of what the wire withstands.`;
    case 'never':
      return `${fault}: nothing ever clears it.`;
    default:
      return `${fault}: when ${openAt(clearing?.withoutFigure ?? [])} at that current is not known.`;
  }
}

const openAt = (devices: readonly string[]): string =>
  `${listed(devices)} ${devices.length === 1 ? 'opens' : 'open'}`;

const openersOf = (steps: readonly ClearingStep[]): readonly string[] =>
  steps.flatMap((s) => (s.opens === null ? [] : [s.opens]));

const placeWords = (wires: Wires, fault: ShortCase): string => {
  const faulted = wires.get(fault.wire);
  const where = faulted === undefined ? '' : whereWords(faulted, fault.along);
  return `${where} ${intoWords(fault.into)}`;
};

/** The range of currents tried, then the governing trial line by line. */
export function clearingSteps(
  op: Operation,
  wire: LaidWire,
  run: Governed,
  ampacity: Ampacity | null,
): readonly Step[] {
  const { worst } = run;
  const currents = run.all.map((r) => r.amps);
  return [
    step(
      'Currents tried',
      `${run.all.length} short circuits from ${amps(Math.min(...currents))} to`,
      Math.max(...currents),
      'A',
      {
        about: [wire.id],
      },
    ),
    step(trialWords(worst), faultWords(op, worst.trial.fault), worst.amps, 'A', { about: [wire.id] }),
    ...steadyStep(wire, worst, ampacity),
    ...(worst.clearing?.steps ?? []).flatMap((s) => openingSteps(op, wire, s)),
    ...heatStep(wire, worst),
  ];
}

function trialWords(worst: Result): string {
  if (worst.trial.type === 'corner') return `Governing: a listed point of ${worst.trial.corner ?? ''}`;
  return worst.trial.type === 'least' ? 'Governing: the least current' : 'Governing: the greatest current';
}

function faultWords(op: Operation, fault: ShortCase): string {
  const greatest = fault.level === 'greatest';
  const at = op.build.settings.resistanceAt;
  const copper =
    typeof at === 'number' ? `copper at ${celsius(at)}` : greatest ? 'copper coldest' : 'copper hot';
  const sources = greatest
    ? `all sources on, batteries full, ${copper}`
    : `${fault.batteries === 'all' ? 'all batteries' : listed(fault.batteries)}, half charged, ${copper}`;
  return `${placeWords(op.wires, fault)} through ${ohms(fault.contact)}; ${sources}`;
}

/** Copper melts, °C (handbook figure). */
const COPPER_MELTS = 1084.6;

/** Where it would melt, that is what counts: the formula's own figure would mean nothing. */
function steadyStep(wire: LaidWire, worst: Result, ampacity: Ampacity | null): readonly Step[] {
  if (worst.celsius === null || ampacity === null || ampacity.amps === null) return [];
  const load = worst.amps / ampacity.amps;
  const about = { about: [wire.id] };
  if (worst.celsius > COPPER_MELTS) {
    const times = `${number(load)} times its ampacity of ${amps(ampacity.amps)}`;
    return [
      step(
        'Steady temperature at that current',
        `${times}: copper melts at ${celsius(COPPER_MELTS)}`,
        null,
        '',
        about,
      ),
    ];
  }
  const beyond = load > 1.5 ? ' (beyond the range of this formula)' : '';
  const how = `${celsius(ampacity.airC)} + ${number(wire.rating - ampacity.airC)} K × (${amps(worst.amps)} / ${amps(ampacity.amps)})²; final ${celsius(wire.finalTemperature)}${beyond}`;
  return [step('Steady temperature at that current', how, worst.celsius, '°C', about)];
}

function openingSteps(op: Operation, wire: LaidWire, s: ClearingStep): readonly Step[] {
  if (s.opens === null)
    return [step('Nothing more opens', `${amps(s.wireAmps)} remain in the wire`, null, '')];
  const about = { about: [s.opens] };
  const slow = `slow edge at ${amps(s.deviceAmps)} through it, ${amps(s.wireAmps)} in ${wire.id}`;
  return [
    ...multipleSteps(op, s),
    step(`time by which ${s.opens} has surely opened`, slow, s.seconds, 's', about),
  ];
}

/** The current as a share of the device's rating, and the time before which it surely has not opened. */
function multipleSteps(op: Operation, s: ClearingStep): readonly Step[] {
  const device = s.opens === null ? undefined : op.parts.get(s.opens)?.ability.protects;
  const rating = device?.rating?.sourced.value;
  if (s.opens === null || device === undefined || rating === undefined) return [];
  const multiple = s.deviceAmps / rating;
  const about = { about: [s.opens] };
  const share = step(
    `that current in ${s.opens}`,
    `${amps(s.deviceAmps)} / ${amps(rating)}`,
    multiple * 100,
    '%',
    about,
  );
  const fast = device.curve === null ? null : fastSeconds(device.curve, multiple);
  if (fast === null || !Number.isFinite(fast)) return [share];
  return [
    share,
    step(`time before which ${s.opens} surely has not`, 'fast edge at that current', fast, 's', about),
  ];
}

function heatStep(wire: LaidWire, worst: Result): readonly Step[] {
  const area = wire.areaMm2 ?? 0;
  const k = wire.k.sourced.value;
  const withstand = step(
    `time that ${wire.id} withstands that current`,
    `(${number(k)} × ${square(area)} / ${amps(worst.amps)})²`,
    withstandSeconds(k, area, worst.amps),
    's',
    { source: wire.k.sourced.source, about: [wire.id] },
  );
  if (worst.ending === 'steady') return [];
  if (!Number.isFinite(worst.heat)) return [withstand];
  return [
    withstand,
    step('Share of the withstand', `Σ I²t / (${number(k)} × ${square(area)})²`, worst.heat * 100, '%', {
      about: [wire.id],
    }),
  ];
}
