/** What a drawing shows of a build: views, numbers, labels, places. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { subjectFrom } from './draw.ts';

const van = subjectFrom(readFileSync(new URL('../../examples/beekeepers-van.yaml', import.meta.url), 'utf8'));
const faulty = subjectFrom(
  readFileSync(new URL('../../examples/faulty-camper.yaml', import.meta.url), 'utf8'),
);

const wire = (id: string) => {
  const found = van.wires.get(id);
  if (found === undefined) throw new Error(`no wire ${id}`);
  return found;
};

describe('views', () => {
  it('follow the signal from its source over relay, fuse and switch to the charger, and no further', () => {
    for (const id of ['run', 'run-neg', 'tap', 'tap-2', 'enable', 'enable-2'])
      expect(wire(id).view, id).toBe('control');
    for (const id of ['feed', 'feed-2', 'feed-3', 'out', 'bank']) expect(wire(id).view, id).toBe('power');
    for (const id of ['return', 'earth', 'out-neg', 'bank-neg']) expect(wire(id).view, id).toBe('negative');
  });

  it('take every wire, each in one', () => {
    const { size } = van.wires;
    const count = ['power', 'control', 'negative'].map(
      (view) => [...van.wires.values()].filter((w) => w.view === view).length,
    );
    expect(count.reduce((a, b) => a + b)).toBe(size);
  });

  it('show the negative of a panel behind an isolated input as negative, though no battery is joined to it', () => {
    const subject = subjectFrom(`loomwright: 1
title: Isolated
practice: europe
systems: { vehicle: 12 V, house: 12 V }
places: { a: { label: Front }, b: { label: Rear } }
parts:
  battery: { kind: battery, at: a, role: vehicle, chemistry: agm, capacity: 80 Ah }
  charger: { kind: dc-charger, at: b, current: 20 A, enable: voltage, negative: isolated }
  lamp: { kind: load, at: b, current: 1 A }
wires:
  plus: { from: battery.+, to: charger.in+, size: 10 mm2, length: 1 m }
  minus: { from: charger.in-, to: battery.-, size: 10 mm2, length: 1 m }
  lamp-plus: { from: charger.out+, to: lamp.+, size: 4 mm2, length: 1 m }
  lamp-minus: { from: lamp.-, to: charger.out-, size: 4 mm2, length: 1 m }
`);
    expect(
      [...subject.wires.values()]
        .filter((w) => w.view === 'negative')
        .map((w) => w.id)
        .toSorted(),
    ).toEqual(['lamp-minus', 'minus']);
  });
});

describe('labels of wires', () => {
  it('say number, size, length and what protects at which current', () => {
    expect(wire('feed')).toMatchObject({ number: 'W1', size: '50', length: '0.12\u00A0m', rating: '' });
    // Behind the 80 A fuse, whose end it does not share.
    expect(wire('feed-3').rating).toBe('80\u00A0A');
    expect(wire('enable').rating).toBe('3\u00A0A');
  });

  it('say "no fuse" where a battery reaches a wire before any device', () => {
    const bare = [...faulty.wires.values()].filter((w) => w.rating === 'no\u00A0fuse').map((w) => w.id);
    expect(bare.length).toBeGreaterThan(0);
    for (const id of bare) {
      const found = faulty.wires.get(id);
      const kinds = [found?.from.part, found?.to.part].map((part) => faulty.parts.get(part ?? '')?.title);
      expect(kinds).not.toContain('fuse');
    }
  });

  it('never claim a rating on a return', () => {
    for (const w of [...van.wires.values(), ...faulty.wires.values()])
      if (w.view === 'negative') expect(w.rating).toBe('');
  });
});

describe('parts', () => {
  it('are designated by letter and number in the order of the document', () => {
    expect(van.parts.get('feed-fuse')?.designation).toBe('F1');
    expect(van.parts.get('house-fuse')?.designation).toBe('F2');
    expect(van.parts.get('charger')?.designation).toBe('T1');
    expect(van.parts.get('run-relay')?.designation).toBe('K1');
    expect([...van.parts.values()].map((part) => part.designation)).not.toContain('W1');
  });

  it('without a wire that sit at the posts by default are joined there by lines that say so', () => {
    const assumed = [...van.wires.values()].filter((w) => w.assumed);
    expect(assumed.map((w) => [w.from.part, w.to.part])).toEqual([
      ['alternator', 'vehicle-battery'],
      ['alternator', 'vehicle-battery'],
    ]);
  });

  it('of the body itself are not drawn', () => {
    expect(van.parts.has('body')).toBe(false);
  });

  it('show their plate as typed, and a question mark for what is not known', () => {
    expect(van.parts.get('charger')?.symbol.plate).toEqual(['40\u00A0A']);
    expect(van.parts.get('vehicle-battery')?.symbol.plate).toEqual(['flooded', '80\u00A0Ah']);
  });
});

describe('places', () => {
  it('come nose to tail, a place without a station between its neighbours', () => {
    const subject = subjectFrom(`loomwright: 1
title: Places
practice: europe
systems: { house: 12 V }
places:
  tail: { label: Tail, station: 5 m }
  nose: { label: Nose, station: 0.5 m }
  between: { label: Between }
  middle: { label: Middle, station: 3 m }
parts:
  bank: { kind: battery, at: tail, role: house, chemistry: agm, capacity: 100 Ah }
  lamp: { kind: load, current: 1 A }
wires:
  plus: { from: bank.+, to: lamp.+, size: 4 mm2, length: 1 m }
`);
    expect(subject.places.map((place) => place.label)).toEqual([
      'Nose',
      'Between',
      'Middle',
      'Tail',
      'Place not given',
    ]);
    expect(subject.places.find((place) => place.id === 'between')?.known).toBe(false);
  });
});
