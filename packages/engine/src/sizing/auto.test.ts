import { describe, expect, it } from 'vitest';
import type { Build, Finding, Verdict, Wire } from '../contracts/index.ts';
import { parseSize } from '../quantity/index.ts';
import { autoWires, sizeAuto, sizeList } from './auto.ts';

const sizes = (...texts: string[]) =>
  texts.map((text) => {
    const found = parseSize(text);
    if (!found.ok) throw new Error(found.message);
    return found.size;
  });

const wire = (id: string, size: Wire['size']): [string, Wire] => [
  id,
  {
    id,
    from: 'a.+',
    to: 'b.+',
    material: 'copper',
    sheathed: false,
    ...(size === undefined ? {} : { size }),
  },
];

function build(stock: string[], practice: Build['practice'] = 'europe'): Build {
  return {
    practice,
    wires: new Map([wire('feed', 'auto'), wire('return', 'auto'), wire('tap', sizes('1 mm2')[0])]),
    stock: { sizes: sizes(...stock), fuses: [], lugs: [] },
  } as unknown as Build;
}

const finding = (
  id: string,
  verdict: Verdict,
  margin: number | null,
  open: Finding['open'] = null,
): Finding => ({ id, verdict, margin, open, about: ['feed'] }) as unknown as Finding;

const areaOf = (copy: Build): number => {
  const size = copy.wires.get('feed')?.size;
  return typeof size === 'object' ? size.areaMm2 : Number.NaN;
};

/** Hunts below 16, undecided at 16, met from 25 on. */
const hunting = (copy: Build): Finding => {
  const area = areaOf(copy);
  return finding('hunting/charger', area < 16 ? 'fault' : area < 25 ? 'open' : 'met', area - 16);
};

const undecided = (copy: Build) => [finding('clearing/feed', areaOf(copy) < 50 ? 'open' : 'met', null)];

const unclosed = (copy: Build) => [hunting(copy), finding('ampacity/feed', 'open', null)];

const beyondReach = (copy: Build) => [hunting(copy), finding('reach/feed', 'danger', -0.7)];

const waiting = (copy: Build) => [
  hunting(copy),
  finding('rating/feed', areaOf(copy) < 50 ? 'open' : 'met', null, areaOf(copy) < 50 ? 'unconfirmed' : null),
];

describe('size: auto', () => {
  it('takes the smallest size that nothing larger betters, and names what the next smaller one fails', () => {
    const auto = sizeAuto(build(['10 mm2', '16 mm2', '25 mm2', '35 mm2']), (copy) => [hunting(copy)]);
    expect(auto?.size.areaMm2).toBe(25);
    expect(auto?.governedBy).toBe('hunting/charger');
    expect(auto?.serves).toBe(true);
    expect(auto?.wires).toEqual(['feed', 'return']);
    expect(areaOf(auto?.build as Build)).toBe(25);
    expect(auto?.build.wires.get('tap')?.size).toEqual(sizes('1 mm2')[0]);
  });

  it('passes over a run of sizes that stay open until a much larger one closes them', () => {
    expect(sizeAuto(build(['10 mm2', '16 mm2', '25 mm2', '50 mm2']), undecided)?.size.areaMm2).toBe(50);
  });

  it('keeps a size whose open finding no larger one closes', () => {
    expect(sizeAuto(build(['16 mm2', '25 mm2', '35 mm2']), unclosed)?.size.areaMm2).toBe(25);
  });

  it('does not count a danger that thickness cannot cure', () => {
    const auto = sizeAuto(build(['16 mm2', '25 mm2', '35 mm2']), beyondReach);
    expect(auto?.size.areaMm2).toBe(25);
    expect(auto?.serves).toBe(true);
  });

  it('says when the stock is too thin', () => {
    const auto = sizeAuto(build(['6 mm2', '10 mm2']), (copy) => [hunting(copy)]);
    expect(auto?.size.areaMm2).toBe(10);
    expect(auto?.serves).toBe(false);
    expect(auto?.governedBy).toBe('hunting/charger');
  });

  it('says nothing where the smallest serves, and is null where no wire asks', () => {
    const auto = sizeAuto(build(['25 mm2', '35 mm2']), (copy) => [hunting(copy)]);
    expect(auto?.governedBy).toBeNull();
    const none = { ...build([]), wires: new Map([wire('tap', sizes('1 mm2')[0])]) } as Build;
    expect(sizeAuto(none, () => [])).toBeNull();
    expect(autoWires(none)).toEqual([]);
  });

  it('names a smaller size that only waits for a table to be confirmed', () => {
    const auto = sizeAuto(build(['16 mm2', '25 mm2', '35 mm2', '50 mm2']), waiting);
    expect(auto?.size.areaMm2).toBe(50);
    expect(auto?.governedBy).toBe('rating/feed');
    expect(auto?.onceConfirmed?.areaMm2).toBe(25);
  });

  it('judges each size once, the answer included', () => {
    const seen: number[] = [];
    sizeAuto(build(['10 mm2', '16 mm2', '25 mm2', '35 mm2']), (copy) => {
      seen.push(areaOf(copy));
      return [hunting(copy)];
    });
    expect(new Set(seen).size).toBe(seen.length);
  });

  it('tries the usual sizes of the practice when no stock is given', () => {
    expect(sizeList(build([])).map((size) => size.name)).toContain('120\u00A0mm²');
    expect(sizeList(build([], 'north-america')).map((size) => size.name)).toContain('4/0\u00A0AWG');
    expect(sizeList(build(['35 mm2', '10 mm2', '35 mm2'])).map((size) => size.areaMm2)).toEqual([10, 35]);
  });
});
