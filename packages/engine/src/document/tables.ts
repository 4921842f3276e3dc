/** The fields of everything in a document that is not a part. The reader walks with them; the JSON Schema is printed from them. */
import type { Dimension } from '../quantity/index.ts';
import { parseSize } from '../quantity/index.ts';
import type { Field, FieldTable, PhraseResult, Shape } from '../contracts/index.ts';
import { REQUIREMENTS, STATE_IDS } from '../contracts/index.ts';
import { insulationNames } from '../reference/index.ts';
import { ID_PATTERN, readReference, readTerminal, TERMINAL_PATTERN } from './ids.ts';

const field = (shape: Shape, doc: string): Field => ({ shape, doc });
const wanted = (shape: Shape, doc: string): Field => ({ shape, doc, wanted: true });
const choice = (...of: readonly string[]): Shape => ({ shape: 'choice', of });
const list = (of: Shape): Shape => ({ shape: 'list', of });
const record = (fields: FieldTable): Shape => ({ shape: 'record', fields });
const quantity = (
  dimension: Dimension,
  limits: { min?: number; max?: number; band?: boolean } = {},
): Shape => ({
  shape: 'quantity',
  dimension,
  ...limits,
});
const TEXT: Shape = { shape: 'text' };
const FLAG: Shape = { shape: 'flag' };
const LENGTH = quantity('length', { min: 0, max: 1000 });
const VOLTS = quantity('voltage', { min: 0, max: 1000 });
const AMPS = quantity('current', { min: 0, max: 10_000 });
const AIR = quantity('temperature', { min: -60, max: 200 });
const OHMS = quantity('resistance', { min: 0 });

const reference = (expected: string): Shape => ({
  shape: 'phrase',
  read: readReference,
  expected,
  pattern: ID_PATTERN,
});
const PLACE = reference('the name of a place');
const TERMINAL: Shape = {
  shape: 'phrase',
  read: readTerminal,
  expected: 'a terminal such as charger.in+',
  pattern: TERMINAL_PATTERN,
};

const SIZES = '25 mm2, 4 AWG, 4 SAE or 6 mm auto';

function readOneSize(text: string): PhraseResult {
  const result = parseSize(text);
  if (!result.ok) return result;
  if (result.band !== undefined)
    return { ok: false, message: `"${text}" is a band: one size is expected here, such as ${SIZES}` };
  return { ok: true, value: result.size };
}

function readWireSize(text: string): PhraseResult {
  return text === 'auto' || text === 'unknown' ? { ok: true, value: text } : readOneSize(text);
}

const SIZE_PATTERN = '[0-9]|[Aa][Ww][Gg]|[Ss][Aa][Ee]';
const SIZE: Shape = {
  shape: 'phrase',
  read: readOneSize,
  expected: `a size such as ${SIZES}`,
  pattern: SIZE_PATTERN,
};
const WIRE_SIZE: Shape = {
  shape: 'phrase',
  read: readWireSize,
  expected: `a size such as ${SIZES}, or auto`,
  pattern: `^auto$|^unknown$|${SIZE_PATTERN}`,
};

const BY_AND_DATE: FieldTable = {
  by: field(TEXT, 'Who says so.'),
  date: field(TEXT, 'When, such as 2026-03-14.'),
};

export const VEHICLE: FieldTable = {
  supply: field(choice('alternator', 'converter'), 'What feeds the 12/24 V net while the vehicle runs.'),
  engine: field(FLAG, 'Whether it has an engine; default yes with an alternator, no with a converter.'),
  'variable-voltage': field(FLAG, 'Whether the supply voltage is lowered to save fuel.'),
  'automatic-stop': field(FLAG, 'Whether the engine stops by itself at a halt.'),
  'plug-in': field(FLAG, 'Whether the vehicle charges from a socket.'),
  length: field(LENGTH, 'Length of the vehicle, m.'),
};

export const CLIMATE: FieldTable = {
  coldest: field(AIR, 'Coldest outside air the vehicle is used in; default -10 °C.'),
  hottest: field(AIR, 'Hottest outside air the vehicle is used in; default 40 °C.'),
};

export const SETTINGS: FieldTable = {
  'resistance-at': field(
    {
      shape: 'any-of',
      of: [choice('predicted', 'ambient'), quantity('temperature', { min: -60, max: 200, band: false })],
      expected: 'predicted, ambient or a temperature such as 20 °C',
    },
    'Conductor temperature used for resistance: predicted per condition (default), ambient, or a fixed one.',
  ),
  'fault-contact': field(OHMS, 'Contact resistance of a short circuit; default 5 mΩ.'),
  meter: field(OHMS, "Input resistance of the workshop's meter; default 10 MΩ."),
  allowance: field(LENGTH, 'Extra length per wire end found along routes; default 0.15 m.'),
};

const POSTS: FieldTable = {
  min: field(VOLTS, "Least voltage at the vehicle battery's posts in this state, V."),
  typical: field(VOLTS, 'Typical voltage, V.'),
  max: field(VOLTS, 'Greatest voltage, V.'),
};

export const SURVEYED_STATE: FieldTable = {
  posts: field(record(POSTS), "Voltage at the vehicle battery's posts."),
  output: field(AMPS, "Greatest current of the vehicle's supply in this state, A."),
  load: field(AMPS, "The vehicle's own load in this state, A."),
  lasts: field(quantity('time'), 'How long the state lasts.'),
  ...BY_AND_DATE,
};

export const PLACE_FIELDS: FieldTable = {
  label: field(TEXT, 'What it is called on papers.'),
  station: field(quantity('length', { min: -10, max: 100 }), 'Distance from the nose, m.'),
  level: field(choice('roof', 'upper', 'floor', 'under floor'), 'Height in the vehicle.'),
  hottest: field(AIR, 'Hottest air there.'),
  coldest: field(AIR, 'Coldest air there.'),
  'engine-space': field(FLAG, 'Engine compartment; default no.'),
  enclosed: field(FLAG, 'Closed box without ventilation; default no.'),
  wet: field(FLAG, 'Splash water reaches it; default no.'),
  'gas-or-fuel': field(FLAG, 'Gas or fuel may gather there; default no.'),
  living: field(FLAG, 'People live or sleep there; default no.'),
  'crash-zone': field(FLAG, 'Likely to be crushed in a crash; default no.'),
};

export const ROUTE_FIELDS: FieldTable = {
  from: field(PLACE, 'Place at one end.'),
  to: field(PLACE, 'Place at the other end.'),
  length: wanted(LENGTH, 'Length of the way a wire takes, m.'),
  in: field(choice('free', 'conduit', 'loom', 'bundle', 'spaced'), 'How wires lie in it; default loom.'),
  'insulated-wall': field(LENGTH, 'How much of it lies in wall insulation, m; default 0 m.'),
};

export const WIRE_FIELDS: FieldTable = {
  from: field(TERMINAL, 'Terminal at one end, part.terminal.'),
  to: field(TERMINAL, 'Terminal at the other end, part.terminal.'),
  size: wanted(WIRE_SIZE, 'Conductor size with its unit (25 mm2, 4 AWG, 4 SAE, 6 mm auto), or auto.'),
  length: field(LENGTH, 'Length, m; without it the way along the routes is taken.'),
  via: field(list(PLACE), 'Places it passes, in order.'),
  insulation: field(choice(...insulationNames), 'Insulation and its temperature class.'),
  material: field(choice('copper', 'cca'), 'Copper (default) or copper-clad aluminium.'),
  strand: field(
    choice('iec-5', 'iso-6722', 'awg', 'sae'),
    'Stranding standard; default by the way the size is written.',
  ),
  sheathed: field(FLAG, 'In a sheath with others; default no.'),
  colour: field(TEXT, 'Colour, such as RD or red.'),
  joints: field(
    record({
      from: field(OHMS, 'Resistance of the joint at its from end; default 0.05 mΩ.'),
      to: field(OHMS, 'Resistance of the joint at its to end; default 0.05 mΩ.'),
    }),
    'Joints at its ends.',
  ),
  return: field(reference('the name of a wire'), 'The wire that is its own return.'),
  torque: field(quantity('torque'), 'Tightening torque of its lugs.'),
  number: field(TEXT, 'Number on its label.'),
};

export const ASIDE_FIELDS: FieldTable = {
  finding: field(TEXT, 'The finding that is set aside, by its id.'),
  reason: field(TEXT, 'Why.'),
  ...BY_AND_DATE,
};

export const MEASURED_FIELDS: FieldTable = {
  from: field(TERMINAL, 'Terminal at one end, part.terminal.'),
  to: field(TERMINAL, 'Terminal at the other end, part.terminal.'),
  resistance: field(OHMS, 'Resistance measured between them; it replaces the computed path.'),
  ...BY_AND_DATE,
};

export const CONFIRMED_FIELDS: FieldTable = {
  table: field(TEXT, 'The published table that is vouched for.'),
  figure: field(TEXT, 'The single figure that is vouched for.'),
  edition: field(TEXT, 'Edition of its source.'),
  ...BY_AND_DATE,
};

export const STOCK_FIELDS: FieldTable = {
  sizes: field(list(SIZE), 'Cable sizes the workshop keeps.'),
  fuses: field(list(TEXT), 'Fuses it keeps.'),
  lugs: field(list(TEXT), 'Lugs it keeps.'),
};

export const PRACTICE = choice('europe', 'north-america');
export const UNITS = choice('metric', 'imperial');
export const SYSTEM_VOLTS = quantity('voltage', { min: 0.1, max: 1000, band: false });

/** The top of a document, in the order in which it is written. Structures with names of their own are read one by one. */
export const TOP: FieldTable = {
  loomwright: field({ shape: 'number' }, 'Version of the format; this is 1.'),
  title: field(TEXT, 'What the job is called.'),
  revision: field(TEXT, 'Revision printed on papers.'),
  practice: wanted(PRACTICE, 'The rule set the build is judged by.'),
  systems: wanted(
    { shape: 'map', of: SYSTEM_VOLTS },
    'Nominal voltage of each system by its name, such as { vehicle: 12 V, house: 12 V }.',
  ),
  vehicle: field(record(VEHICLE), 'The vehicle.'),
  units: field(UNITS, 'Units on papers; default metric.'),
  climate: field(record(CLIMATE), 'Outside air.'),
  settings: field(record(SETTINGS), 'How the workshop computes and measures.'),
  stock: field(record(STOCK_FIELDS), 'What the workshop keeps.'),
  places: field({ shape: 'map', of: record(PLACE_FIELDS) }, 'Places in the vehicle by name, nose to tail.'),
  routes: field(list(record(ROUTE_FIELDS)), 'Measured ways between places that wires can take.'),
  survey: field(
    { shape: 'map', keys: STATE_IDS, of: record(SURVEYED_STATE) },
    'What was measured on the vehicle, by state.',
  ),
  parts: field({ shape: 'map', of: record({}) }, 'Parts by name.'),
  wires: field({ shape: 'map', of: record(WIRE_FIELDS) }, 'Wires by name.'),
  requires: field(
    list(choice(...REQUIREMENTS)),
    'What the build must do; the first two hold when the key is absent.',
  ),
  aside: field(list(record(ASIDE_FIELDS)), 'Findings set aside, with the reason.'),
  measured: field(list(record(MEASURED_FIELDS)), 'Resistances measured on the vehicle.'),
  confirmed: field(list(record(CONFIRMED_FIELDS)), 'Tables and figures a named person vouches for.'),
  notes: field(TEXT, 'Notes for whoever reads it.'),
};
