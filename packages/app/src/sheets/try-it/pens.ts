/** The pens of the strip: what each draws, and the limits that are dotted in its lane. */
import type { DrawingSubject, LiveReading } from '@loomwright/engine';
import type { LiveVehicle } from '../../engine/live-desk.ts';
import { probeValue, type Probe } from './probes.ts';

export interface Pen {
  readonly id: string;
  readonly title: string;
  readonly unit: 'V' | 'A';
  readonly value: (reading: LiveReading) => number | null;
  readonly limits: readonly { readonly value: number; readonly words: string }[];
}

const MOST = 4;

/** Volts from one terminal to another; null: they share no path. */
const between =
  (plus: string, minus: string) =>
  (reading: LiveReading): number | null => {
    const [a, b] = [reading.volts[plus], reading.volts[minus]];
    return a === undefined || b === undefined || reading.island[plus] !== reading.island[minus]
      ? null
      : a - b;
  };

/** Charger's input and output and the house battery; further probes take what room is left. */
export function pensOf(
  vehicle: LiveVehicle,
  probes: readonly Probe[],
  subject: DrawingSubject | null,
): readonly Pen[] {
  const [converter] = vehicle.converters;
  const house = vehicle.batteries.find((each) => each.house);
  const own: readonly Pen[] = [
    ...(converter === undefined
      ? []
      : [
          {
            id: 'input',
            title: 'input',
            unit: 'V' as const,
            value: between(converter.inPlus, converter.inMinus),
            limits: [
              { value: converter.stops, words: 'stop' },
              { value: converter.starts, words: 'start' },
            ],
          },
          {
            id: 'output',
            title: 'output',
            unit: 'A' as const,
            value: (reading: LiveReading) => reading.parts[converter.part]?.outAmps ?? null,
            limits: [],
          },
        ]),
    ...(house === undefined
      ? []
      : [
          {
            id: 'house',
            title: 'house',
            unit: 'V' as const,
            value: between(house.plus, house.minus),
            limits: [],
          },
        ]),
  ];
  const set = probes
    .filter((probe) => !isInput(probe, converter))
    .map((probe): Pen => ({
      id: `probe ${probe.letter}`,
      title: probe.letter,
      unit: probe.type === 'clamp' ? 'A' : 'V',
      value: (reading) => probeValue(probe, reading, subject),
      limits: [],
    }));
  return [...own, ...set].slice(0, MOST);
}

/** The first pen draws it already. */
const isInput = (probe: Probe, converter: LiveVehicle['converters'][number] | undefined): boolean =>
  probe.type === 'volts' && probe.plus === converter?.inPlus && probe.minus === converter?.inMinus;
