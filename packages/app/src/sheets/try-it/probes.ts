/** Probes: two needles on terminals or wire ends, or a clamp round a wire; each with a letter. */
import { printValue, type DrawingSubject, type LiveReading } from '@loomwright/engine';

export type Probe =
  | {
      readonly letter: string;
      readonly type: 'volts';
      readonly plus: string | null;
      readonly minus: string | null;
    }
  | { readonly letter: string; readonly type: 'clamp'; readonly wire: string | null };

/** A spot: a terminal `charger.in+`, or the copper behind the joint at a wire's end `feed@from`. */
export function voltsAt(
  reading: LiveReading,
  spot: string,
): { readonly volts: number; readonly island: number } | null {
  const [wire, end] = spot.split('@');
  if (end === undefined) {
    const [volts, island] = [reading.volts[spot], reading.island[spot]];
    return volts === undefined || island === undefined ? null : { volts, island };
  }
  const laid = reading.wires[wire ?? ''];
  return laid === undefined ? null : { volts: end === 'from' ? laid.from : laid.to, island: -1 };
}

/** null: not set yet; or they share no path: the meter shows nothing that means anything. */
export function probeValue(
  probe: Probe,
  reading: LiveReading | null,
  subject: DrawingSubject | null,
): number | null {
  if (reading === null) return null;
  if (probe.type === 'clamp') return probe.wire === null ? null : (reading.wires[probe.wire]?.amps ?? null);
  if (probe.plus === null || probe.minus === null) return null;
  const plus = voltsAt(reading, probe.plus);
  const minus = voltsAt(reading, probe.minus);
  if (plus === null || minus === null) return null;
  const islands = [
    islandOf(probe.plus, plus, reading, subject),
    islandOf(probe.minus, minus, reading, subject),
  ];
  return islands[0] === islands[1] ? plus.volts - minus.volts : null;
}

/** A wire's end belongs to the island of the terminal that it sits on. */
function islandOf(
  spot: string,
  at: { readonly island: number },
  reading: LiveReading,
  subject: DrawingSubject | null,
): number {
  const [wire, end] = spot.split('@');
  if (end === undefined) return at.island;
  const drawn = subject?.wires.get(wire ?? '');
  const ends = end === 'from' ? drawn?.from : drawn?.to;
  return ends === undefined ? 0 : (reading.island[`${ends.part}.${ends.terminal}`] ?? 0);
}

/** As a meter shows it: below 0.1 V in whole millivolts. */
export function printProbe(probe: Probe, value: number | null): string {
  if (value === null) return probe.type === 'clamp' ? '— A' : '— V';
  if (probe.type === 'clamp') return printValue(Math.abs(value) < 0.005 ? 0 : value, 'A');
  return Math.abs(value) < 0.0995
    ? printValue(Math.round(value * 1000), 'mV').replace(/\.0/, '')
    : printValue(value, 'V');
}

const LETTERS = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H'] as const;

export const nextLetter = (probes: readonly Probe[]): string =>
  LETTERS.find((letter) => probes.every((probe) => probe.letter !== letter)) ?? 'Z';

/** Where a spot is, in the words of the drawing. */
export function spotWords(spot: string | null, subject: DrawingSubject | null): string {
  if (spot === null) return 'not set';
  const [wire, end] = spot.split('@');
  if (end !== undefined) {
    const drawn = subject?.wires.get(wire ?? '');
    const at = end === 'from' ? drawn?.from : drawn?.to;
    return `${drawn?.number ?? wire}, behind its joint at ${at === undefined ? '' : terminalWords(`${at.part}.${at.terminal}`, subject)}`;
  }
  return terminalWords(spot, subject);
}

function terminalWords(ref: string, subject: DrawingSubject | null): string {
  const dot = ref.indexOf('.');
  return `${subject?.parts.get(ref.slice(0, dot))?.designation ?? ref.slice(0, dot)} ${ref.slice(dot + 1)}`;
}

export function probeWords(probe: Probe, subject: DrawingSubject | null): string {
  if (probe.type === 'clamp')
    return probe.wire === null ? 'clamp' : `clamp on ${subject?.wires.get(probe.wire)?.number ?? probe.wire}`;
  return `${spotWords(probe.plus, subject)} to ${spotWords(probe.minus, subject)}`;
}

/** The first probes of a vehicle: across the charger's input, and a clamp on its feed. */
export function firstProbes(
  converter: { readonly part: string; readonly inPlus: string; readonly inMinus: string } | undefined,
  subject: DrawingSubject | null,
): readonly Probe[] {
  if (converter === undefined || subject === null) return [];
  const feed = [...subject.wires.values()].find((wire) =>
    [wire.from, wire.to].some((end) => `${end.part}.${end.terminal}` === converter.inPlus),
  );
  return [
    { letter: 'A', type: 'volts', plus: converter.inPlus, minus: converter.inMinus },
    ...(feed === undefined ? [] : [{ letter: 'B', type: 'clamp', wire: feed.id } as const]),
  ];
}
