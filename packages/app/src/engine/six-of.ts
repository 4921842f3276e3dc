/** The six facts of a build that began with them, read back from the build: the document is the only memory. */
import {
  advise,
  readFacts,
  type Answers,
  type Build,
  type FactName,
  type Given,
  type Part,
} from '@loomwright/engine';

/** Ids that the first design gives its parts and ways. */
const IDS = {
  charger: 'charger',
  house: 'house-battery',
  takeOff: 'take-off',
  converter: 'vehicle-converter',
  body: 'locker-ground',
};

/** Whether a build has the parts of a first design, whatever was added since. */
export function beganWithSix(build: Build): boolean {
  return (
    build.parts.has(IDS.charger) &&
    build.parts.has(IDS.house) &&
    build.places.has(IDS.takeOff) &&
    build.wires.has('feed-2') &&
    build.wires.has('return')
  );
}

/** The same facts as far as they can be read off a build that was drawn some other way. */
export function sixOfAny(build: Build): Answers {
  const byRole = (role: string): Part | undefined =>
    [...build.parts.values()].find((part) => part.fields['role'] === role);
  const vehicle = byRole('vehicle');
  const house = byRole('house');
  const charger = [...build.parts.values()].find(
    (part) => 'low-input' in part.fields || 'enable' in part.fields,
  );
  const found: Partial<Record<FactName, string | null>> = {
    supply: supplyOf(build),
    battery: vehicle?.at === undefined ? null : spotOf(build, vehicle.at),
    charger: written(charger?.fields['current']),
    house:
      house === undefined
        ? null
        : [textOf(house.fields['chemistry']), written(house.fields['capacity'])]
            .filter((each) => each !== null)
            .join(' '),
    stock: stockOf(build),
    system: `${build.systems['vehicle'] ?? 12} V`,
    practice: build.practice ?? null,
  };
  return Object.fromEntries(
    Object.entries(found).filter(([, value]) => value !== null && value !== undefined && value !== ''),
  );
}

/** The answers in words; a fact that is not known is left out. `text` tells by its comments what was given and what assumed. */
export function sixOf(build: Build, text: string): Answers {
  const marked = (entry: string): boolean => new RegExp(`^ *(?:- )?${entry}.*# given`, 'm').test(text);
  const found: Partial<Record<FactName, string | null>> = {
    supply: supplyOf(build),
    battery: otherThan(batteryOf(build), marked('take-off:'), 'bonnet'),
    length: lengthOf(build, marked('\\{ from: take-off')),
    house: houseOf(build.parts.get(IDS.house), text),
    return: otherThan(returnOf(build), marked('return:'), 'cable'),
    stock: otherThan(stockOf(build), marked('stock:'), USUAL[build.practice ?? 'europe']),
    system: `${build.systems['vehicle'] ?? 12} V`,
    practice: build.practice ?? null,
  };
  const known = (all: typeof found): Answers =>
    Object.fromEntries(Object.entries(all).filter(([, value]) => value !== null && value !== undefined));
  const charger = written(build.parts.get(IDS.charger)?.fields['current']);
  const advised = `${advise(readFacts(known(found)).facts).amps} A`;
  return known({ ...found, charger: otherThan(charger, marked('charger:'), advised) });
}

/** What "don't know" stands for is not known, unless it is marked as given. */
const otherThan = (value: string | null, marked: boolean, unknown: string): string | null =>
  marked || value !== unknown ? value : null;

const USUAL = {
  europe: '10 mm2, 16 mm2, 25 mm2, 35 mm2, 50 mm2, 70 mm2',
  'north-america': '8 AWG, 6 AWG, 4 AWG, 2 AWG, 1/0 AWG, 2/0 AWG',
} as const;

const stockOf = (build: Build): string | null =>
  build.stock.sizes.length === 0 ? null : build.stock.sizes.map((size) => size.text).join(', ');

function supplyOf({ vehicle, parts }: Build): string | null {
  if (vehicle.supply === 'converter') {
    const limit = written(parts.get(IDS.converter)?.fields['added-limit']);
    return limit === null ? 'converter' : `converter ${limit}`;
  }
  if (vehicle.supply !== 'alternator') return null;
  return vehicle.variableVoltage === true ? 'variable' : 'alternator';
}

const batteryOf = (build: Build): string => spotOf(build, IDS.takeOff);

function spotOf(build: Build, id: string): string {
  const place = build.places.get(id);
  if (place?.engineSpace === true) return 'bonnet';
  return /seat/i.test(place?.label ?? '') ? 'seat' : 'behind';
}

function lengthOf(build: Build, marked: boolean): string | null {
  const length = build.routes.find((route) => route.from === IDS.takeOff || route.to === IDS.takeOff)?.length;
  const text = written(length);
  return marked || (text !== null && text !== '1..10 m') ? text : null;
}

const HOUSE_MARK = /^ *house-battery:.*# given(?:, (chemistry|capacity) assumed)?/m;

function houseOf(part: Part | undefined, text: string): string | null {
  if (part === undefined) return null;
  const mark = HOUSE_MARK.exec(text);
  const chemistry = textOf(part.fields['chemistry']);
  const capacity = written(part.fields['capacity']);
  const known = [
    ...(chemistry !== null && (mark === null ? chemistry !== 'lifepo4' : mark[1] !== 'chemistry')
      ? [chemistry]
      : []),
    ...(capacity !== null && (mark === null ? capacity !== '100..300 Ah' : mark[1] !== 'capacity')
      ? [capacity]
      : []),
  ];
  return known.length === 0 ? null : known.join(' ');
}

const textOf = (value: unknown): string | null =>
  typeof value === 'string' && value !== 'unknown' ? value : null;

const returnOf = (build: Build): string =>
  build.wires.get('return')?.to.startsWith(IDS.body) === true ? 'body' : 'cable';

/** A quantity as typed; null when it is not known. */
function written(value: unknown): string | null {
  if (value === undefined || value === 'unknown') return null;
  const given = value as Given;
  return given === 'unknown' ? null : given.text;
}
