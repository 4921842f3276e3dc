/** A stud or post that carries several lugs. */
import type { FieldTable, Kind } from '../contracts/index.ts';
import { LEAST_OHMS } from './circuit.ts';
import { statedRating } from './common.ts';
import { ask, practice } from './figures.ts';
import { lugsShape } from './phrases.ts';
import { choice, field, listShape, textShape } from './shapes.ts';
import { star } from './star.ts';
import { threadOf } from './symbols.ts';

/** Lugs that a stud may carry when nobody says (common practice, no source). */
const USUAL_LUGS = 4;

const fields: FieldTable = {
  limit: field(lugsShape, 'Number of lugs that it may carry: `4 lugs`, also when not given.'),
  order: field(listShape(textShape), 'Order of the lugs from the seat outwards, by wire.'),
  material: choice(
    ['steel', 'brass', 'copper', 'insert'],
    'What it is made of; `insert`: a threaded insert.',
  ),
};

export const stud: Kind = {
  name: 'stud',
  title: 'stud',
  letter: 'X',
  fields,
  leadsOn: true,
  terminals: () => ({ type: 'numbered' }),
  abilities: (read) => {
    const stated = read.raw('limit');
    const limit =
      typeof stated === 'number'
        ? stated
        : read.resolve(
            'limit',
            null,
            practice(USUAL_LUGS, '', 'common practice, no source'),
            ask('number of lugs that {part} may carry'),
          )?.sourced.value;
    const order = read.raw('order');
    return {
      ...(limit === undefined ? {} : { lugLimit: limit }),
      ...(Array.isArray(order) ? { lugOrder: order.filter((id) => typeof id === 'string') } : {}),
      dcRating: statedRating(read),
    };
  },
  symbol: (read) => ({ shape: 'bar', terminals: 'numbered', glyph: null, plate: threadOf(read) }),
  // The lugs lie on each other: what resistance there is belongs to the joints at the ends of the wires.
  elements: (at) => star(at, 2 * LEAST_OHMS),
  example: `loomwright: 1
title: Two feeds from a distribution stud
practice: europe
systems: { vehicle: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  feed-stud: { kind: stud, at: bonnet, limit: 3, order: [feed, tap], material: copper }
  tap-fuse: { kind: fuse, at: bonnet, family: blade-f, rating: 10 A }
  horn: { kind: load, at: bonnet, current: 5 A, inrush: motor, on: schedule }
wires:
  feed: { from: starter-battery.+, to: feed-stud.1, size: 16 mm2, insulation: pvc-105, length: 10 cm }
  tap: { from: feed-stud.2, to: tap-fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 5 cm }
  horn-feed: { from: tap-fuse.load, to: horn.+, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  horn-return: { from: horn.-, to: starter-battery.-, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
`,
};
