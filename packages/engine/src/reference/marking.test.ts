import { describe, expect, it } from 'vitest';
import { colourCode, colourName } from './marking.ts';
import type { Figure } from './sourced.ts';
import { studTorque } from './torque.ts';

const value = <T>(figure: Figure<T>) => ('noFigure' in figure ? undefined : figure.value);
const prov = <T>(figure: Figure<T>) => ('noFigure' in figure ? 'none' : figure.prov);

describe('marks', () => {
  it('colour codes (IEC 60757)', () => {
    expect(
      ['black', 'Red', 'blue', 'green-and-yellow', 'violet'].map((name) => value(colourCode(name))),
    ).toEqual(['BK', 'RD', 'BU', 'GNYE', 'VT']);
    expect(value(colourName('bu'))).toBe('blue');
    expect(value(colourCode('mauve'))).toBeUndefined();
  });

  it('studs by material and thread', () => {
    expect([value(studTorque('brass', 'M8')), value(studTorque('copper', 'M10'))]).toEqual([6, 10]);
    expect([value(studTorque('steel', 'M10')), prov(studTorque('steel', 'M10'))]).toEqual([25, 'seen']);
    expect([value(studTorque('steel', 'M8')), prov(studTorque('steel', 'M8'))]).toEqual([10, 'memory']);
    expect(value(studTorque('copper', 'M4'))).toBeUndefined();
  });
});
