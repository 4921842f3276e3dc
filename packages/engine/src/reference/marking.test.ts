import { describe, expect, it } from 'vitest';
import { onderdonkCurrent, preeceCurrent } from './fusing.ts';
import { classMeaning, colourCode, colourName, fuseColour, terminalMeaning } from './marking.ts';
import type { Figure } from './sourced.ts';
import { studCurrent, studTorque } from './torque.ts';

const value = <T>(figure: Figure<T>) => ('noFigure' in figure ? undefined : figure.value);
const prov = <T>(figure: Figure<T>) => ('noFigure' in figure ? 'none' : figure.prov);

describe('marks', () => {
  it('fuse colours (ISO 8820-3): type C and F against type E', () => {
    expect([value(fuseColour('blade-c', 10)), value(fuseColour('blade-f', 15))]).toEqual(['red', 'blue']);
    expect([value(fuseColour('blade-e', 50)), value(fuseColour('blade-e', 60))]).toEqual(['red', 'blue']);
    expect(prov(fuseColour('blade-c', 5))).toBe('memory');
    expect(value(fuseColour('blade-e', 35))).toBeUndefined();
    expect(value(fuseColour('class-t', 30))).toBeUndefined();
  });

  it('terminals (DIN 72552): coil and contact numbers are from memory', () => {
    expect(value(terminalMeaning('30'))).toBe('positive straight from the battery');
    expect([prov(terminalMeaning('30')), prov(terminalMeaning('87a'))]).toEqual(['seen', 'memory']);
    expect(value(terminalMeaning('99'))).toBeUndefined();
  });

  it('colour codes (IEC 60757)', () => {
    expect(
      ['black', 'Red', 'blue', 'green-and-yellow', 'violet'].map((name) => value(colourCode(name))),
    ).toEqual(['BK', 'RD', 'BU', 'GNYE', 'VT']);
    expect(value(colourName('bu'))).toBe('blue');
    expect(value(colourCode('mauve'))).toBeUndefined();
  });

  it('class letters (IEC 81346-2)', () => {
    expect(value(classMeaning('F'))).toBe('protecting directly against a dangerous or unwanted state');
    expect(value(classMeaning('Z'))).toBeUndefined();
  });

  it('studs by material and thread', () => {
    expect([value(studTorque('brass', 'M8')), value(studTorque('copper', 'M10'))]).toEqual([6, 10]);
    expect([value(studTorque('steel', 'M10')), prov(studTorque('steel', 'M10'))]).toEqual([25, 'seen']);
    expect([value(studTorque('steel', 'M8')), prov(studTorque('steel', 'M8'))]).toEqual([10, 'memory']);
    expect([value(studCurrent('steel', 'M8')), value(studCurrent('brass', 'M8'))]).toEqual([150, 100]);
    expect(value(studTorque('copper', 'M4'))).toBeUndefined();
  });
});

describe('fusing currents', () => {
  it('Preece: 0.0524 in of copper melts at 123 A (public worked example)', () => {
    expect(Math.abs(preeceCurrent(0.0524) - 123)).toBeLessThan(0.5);
  });

  it('Onderdonk with 234 + Ta: 2581 circular mils for 5 s from 25 °C: 168.9 A; a public example with 234 - Ta prints 178 A', () => {
    const amperes = onderdonkCurrent(2581, 5, 25);
    expect(Math.abs(amperes - 168.9)).toBeLessThan(0.2);
    expect(Math.abs(amperes - 178)).toBeGreaterThan(8);
  });
});
