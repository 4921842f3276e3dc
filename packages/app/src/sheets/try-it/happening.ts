/** What is happening, in words: from what stands now and what will become of it. */
import {
  positionWords,
  printValue,
  stateWords,
  type LiveCycling,
  type LiveReading,
} from '@loomwright/engine';
import type { LiveVehicle } from '../../engine/live-desk.ts';
import { nextChange, type TryState } from './try-store.ts';
import { own } from './words.ts';

export interface Happening {
  readonly bad: boolean;
  readonly title: string;
  readonly lines: readonly string[];
}

export function happeningOf(now: TryState): Happening {
  const { vehicle, reading, forecast, state, none } = now;
  if (state === null) return { bad: false, title: own.noState(none), lines: [own.noStateHint] };
  if (vehicle === null || reading === null) return { bad: false, title: own.loading, lines: [] };
  const [cycling] = forecast?.cycling ?? [];
  if (cycling !== undefined) return hunting(cycling, vehicle, now);
  return {
    bad: false,
    title: titleOf(vehicle, reading),
    lines: [
      ...vehicle.converters.map((each) => converterLine(each, reading)),
      nextLine(now),
      ...elsewhere(now),
    ].filter((line) => line !== ''),
  };
}

const volts = (value: number): string => printValue(value, 'V');
const amps = (value: number): string => printValue(value, 'A');

/** "55.3 A pulls the input of Charger to 11.41 V, under its stop at 12.00 V. Off, it is back at 13.62 V, over its start." */
function hunting(cycling: LiveCycling, vehicle: LiveVehicle, now: TryState): Happening {
  const name = nameOf(vehicle, cycling.part);
  const under = cycling.inputOn < cycling.stops;
  const lines = [
    under
      ? `${amps(cycling.onIn)} pulls the input of ${name} to ${volts(cycling.inputOn)}, under its stop at ${volts(cycling.stops)}. Off, the input is back at ${volts(cycling.inputOff)}, over its start at ${volts(cycling.starts)}.`
      : `${name} comes and goes: ${volts(cycling.inputOn)} at its input while on, ${volts(cycling.inputOff)} while off.`,
    `On ${printValue(cycling.onMs, 'ms', true)}, off ${printValue(cycling.offMs, 'ms', true)}: ${printValue(Math.round(100 * cycling.duty), '%').replace('.0', '')} of the time. In the mean it gives ${amps(cycling.meanOut)} instead of ${amps(cycling.onOut)}.`,
    nextLine(now),
    ...elsewhere(now),
  ];
  return { bad: true, title: under ? own.hunts : own.pulses, lines: lines.filter((line) => line !== '') };
}

const nameOf = (vehicle: LiveVehicle, part: string): string =>
  vehicle.converters.find((each) => each.part === part)?.name ?? part;

function titleOf(vehicle: LiveVehicle, reading: LiveReading): string {
  const on = vehicle.converters.filter((each) => (reading.parts[each.part]?.outAmps ?? 0) > 0.5);
  if (vehicle.converters.length === 0) return 'No charger in this build.';
  if (on.length === 0) return 'Nothing charges.';
  return on.length === 1 ? 'It charges.' : `${on.length} chargers charge.`;
}

function converterLine(of: LiveVehicle['converters'][number], reading: LiveReading): string {
  const part = reading.parts[of.part];
  if (part === undefined) return '';
  const [plus, minus] = [reading.volts[of.inPlus], reading.volts[of.inMinus]];
  const joined = reading.island[of.inPlus] === reading.island[of.inMinus];
  const input = plus === undefined || minus === undefined || !joined ? null : plus - minus;
  const at = input === null ? 'nothing at its input' : `${volts(input)} at its input`;
  if ((part.outAmps ?? 0) > 0.05)
    return `${of.name} takes ${amps(part.amps)} with ${at} and gives ${amps(part.outAmps ?? 0)}.`;
  return `${of.name} is ${part.memory ?? own.off2}, with ${at}.`;
}

function nextLine(now: TryState): string {
  const next = nextChange(now);
  if (next === null) return now.course?.untilMs === Infinity ? own.settled : '';
  const what = next.events.map(
    ({ part, to, says }) =>
      `${partName(now.vehicle, part)} ${positionWords(to)}${says === '' ? '' : ` (${says})`}`,
  );
  return `In ${printValue(Math.ceil(next.inMs / 1000) * 1000, 'ms', true)}: ${what.join(', ')}.`;
}

export const partName = (vehicle: LiveVehicle | null, part: string): string =>
  vehicle?.converters.find((each) => each.part === part)?.name ??
  vehicle?.sticking.find((each) => each.part === part)?.name ??
  part;

/** "Driving, the post stands at 14.21 V and it holds: 12.13 V, 52 A." */
function elsewhere({ window, forecast, troubles }: TryState): readonly string[] {
  if (window === null) return [];
  const here = (forecast?.cycling.length ?? 0) > 0;
  return window.elsewhere
    .filter(
      (each) => (here ? each.outcome !== 'cycle' : each.outcome === 'cycle') && (here || troubles.length > 0),
    )
    .map(({ state, volts: source, outcome, input, amps: taken }) => {
      const word = stateWords(state);
      const begin = `${word.charAt(0).toUpperCase()}${word.slice(1)}, the post stands at ${volts(source)} and it `;
      if (outcome === 'cycle') return `${begin}hunts.`;
      return outcome === 'on' ? `${begin}holds: ${volts(input)}, ${amps(taken)}.` : `${begin}stays off.`;
    });
}
