/** What a part or wire shows in the state on view: worked out, so bare. */
import { printValue, type DrawingSubject, type LiveReading, type Slip } from '@loomwright/engine';
import { lengthBeside, sizeBeside } from '../other-units.ts';
import { own } from '../words.ts';

export interface Figure {
  readonly label: string;
  readonly value: string;
}

/** Size and length of a wire in the units that were chosen, where they are written in others. */
export function besideOf({ what, fields }: Slip, units: 'metric' | 'imperial'): readonly Figure[] {
  const stands = (name: string): string => {
    const field = fields.find((each) => each.name === name);
    // What is worked out says behind a comma where it comes from.
    return field?.given ?? field?.assumed?.split(',')[0] ?? '';
  };
  const [size, length] = [sizeBeside(stands('size'), units), lengthBeside(stands('length'), units)];
  if (what !== 'wire') return [];
  return [
    ...(size === '' ? [] : [{ label: 'Size is', value: size }]),
    ...(length === '' ? [] : [{ label: 'Length is', value: length }]),
  ];
}

export function figuresOf(
  id: string,
  subject: DrawingSubject | null,
  reading: LiveReading | null,
): readonly Figure[] {
  if (reading === null || subject === null) return [];
  const wire = reading.wires[id];
  if (wire !== undefined) return wireFigures(id, subject, reading);
  const part = reading.parts[id];
  return part === undefined ? [] : partFigures(id, subject, reading);
}

function wireFigures(id: string, subject: DrawingSubject, reading: LiveReading): readonly Figure[] {
  const wire = reading.wires[id];
  const drawn = subject.wires.get(id);
  if (wire === undefined || drawn === undefined) return [];
  const across = voltsBetween(
    reading,
    `${drawn.from.part}.${drawn.from.terminal}`,
    `${drawn.to.part}.${drawn.to.terminal}`,
  );
  return [
    { label: own.slip.carries, value: printValue(Math.abs(wire.amps), 'A') },
    ...(across === null ? [] : [{ label: 'Loses now', value: printVolts(Math.abs(across)) }]),
    { label: 'Copper now', value: printValue(wire.celsius, '°C') },
  ];
}

function partFigures(id: string, subject: DrawingSubject, reading: LiveReading): readonly Figure[] {
  const part = reading.parts[id];
  const drawn = subject.parts.get(id);
  if (part === undefined || drawn === undefined) return [];
  const { terminals } = drawn.symbol;
  const [a, b] = terminals === 'numbered' ? [] : terminals;
  const across =
    a === undefined || b === undefined ? null : voltsBetween(reading, `${id}.${a}`, `${id}.${b}`);
  return [
    ...(part.memory === null ? [] : [{ label: own.slip.is, value: part.memory }]),
    ...(part.outAmps === null
      ? [{ label: own.slip.carries, value: printValue(Math.abs(part.amps), 'A') }]
      : [
          { label: own.slip.takes, value: printValue(part.amps, 'A') },
          { label: own.slip.gives, value: printValue(part.outAmps, 'A') },
        ]),
    ...(across === null ? [] : [{ label: own.slip.volts, value: printVolts(Math.abs(across)) }]),
  ];
}

/** Below 0.1 V in whole millivolts. */
export const printVolts = (volts: number): string =>
  Math.abs(volts) < 0.1 ? printValue(volts * 1000, 'mV') : printValue(volts, 'V');

/** null: they share no path. */
export function voltsBetween(reading: LiveReading, a: string, b: string): number | null {
  const [va, vb] = [reading.volts[a], reading.volts[b]];
  if (va === undefined || vb === undefined || reading.island[a] !== reading.island[b]) return null;
  return va - vb;
}
