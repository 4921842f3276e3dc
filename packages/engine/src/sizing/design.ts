/** A complete first design from six facts, as the text of a build document. */
import { standardRatings } from '../reference/index.ts';
import { advise, type Advice } from './advise.ts';
import { usualStock, type Return, type SixFacts } from './six.ts';

export interface Design {
  /** The build document, with comments: what was given, assumed, chosen. */
  readonly text: string;
  /** A of the charger's output. */
  readonly amps: number;
  /** Present when the charger's size was left to the tool. */
  readonly advice: Advice | null;
  readonly return: Return;
  /** Ratings of the device at the vehicle battery and of the one at the house battery, A. */
  readonly feedRating: number;
  readonly houseRating: number;
}

/** Worst ends of the published bands, for choosing a rating that holds over all of them. */
const WORST = { volts: 14.6, efficiency: 0.85, factor: 0.75, stop: 12 };

/**
 * Writes the document. `return` and `length` may be overridden, to try both ways back or one end of a band. Choices that the
 * designer is free to make (types, ratings, what a bought part must be able to do) stand as given and are marked `choice`;
 * what is not known stands as a band or `unknown` and is marked `assumed`.
 */
export function designText(
  facts: SixFacts,
  override: { readonly return?: Return; readonly length?: string } = {},
): Design {
  const advice = facts.charger === null ? advise(facts) : null;
  const amps = facts.charger ?? advice?.amps ?? 20;
  const way = override.return ?? facts.return ?? 'cable';
  const scale = facts.system / 12;
  const demand = (amps * WORST.volts) / WORST.efficiency / WORST.stop / WORST.factor;
  const feedRating = ratingFrom(demand);
  const houseRating = ratingFrom(amps / WORST.factor);
  const plan: Plan = { facts, amps, way, scale, feedRating, houseRating, length: override.length ?? null };
  const text = [
    ...head(plan),
    ...places(plan),
    ...parts(plan),
    ...wires(plan),
    'requires:',
    '  - charges only while the engine runs',
    '  - the owner can stop charging',
    '',
  ].join('\n');
  return { text, amps, advice, return: way, feedRating, houseRating };
}

/** The smallest standard rating that is not below a current, A. */
function ratingFrom(amps: number): number {
  return standardRatings.value.find((rating) => rating >= amps && rating >= 10) ?? 300;
}

interface Plan {
  readonly facts: SixFacts;
  readonly amps: number;
  readonly way: Return;
  readonly scale: number;
  readonly feedRating: number;
  readonly houseRating: number;
  readonly length: string | null;
}

const GIVEN = '# given';
const ASSUMED = '# assumed';
const CHOICE = '# choice of this design';

/** "given" where the fact was given, else "assumed" with how it is had. */
const mark = (known: boolean, how: string) => (known ? GIVEN : `${ASSUMED}: ${how}`);

function head({ facts }: Plan): string[] {
  const stock = facts.stock.length > 0 ? facts.stock : usualStock(facts.practice);
  return [
    'loomwright: 1',
    'title: First design',
    `practice: ${facts.practice}`,
    `systems: { vehicle: ${facts.system} V, house: ${facts.system} V }`,
    vehicleLine(facts),
    `stock: { sizes: [${stock.map((size) => size.text).join(', ')}] }  ${mark(facts.stock.length > 0, 'the usual row')}`,
    ...survey(facts),
  ];
}

function vehicleLine({ supply }: SixFacts): string {
  const known = mark(supply !== null, 'look for a sensor on the minus post; log the post on a drive');
  const written = {
    alternator: 'supply: alternator, variable-voltage: no, automatic-stop: no',
    variable: 'supply: alternator, variable-voltage: yes, automatic-stop: yes',
    converter: 'supply: converter',
    none: 'supply: unknown, variable-voltage: unknown, automatic-stop: unknown',
  }[supply ?? 'none'];
  return `vehicle: { ${written} }  ${known}`;
}

function survey({ supply }: SixFacts): string[] {
  const states = supply === 'converter' ? ['ready'] : ['idling', 'driving'];
  return [
    'survey:  # write here what the meter reads at the vehicle battery and what a clamp shows',
    ...states.map(
      (state) =>
        `  ${state}: { posts: { min: unknown, typical: unknown, max: unknown }, output: unknown, load: unknown }  ${ASSUMED}`,
    ),
  ];
}

const SPOTS = {
  bonnet: '{ label: Under the bonnet, engine-space: yes }',
  seat: '{ label: Under a seat }',
  behind: '{ label: "Load space, at the vehicle battery" }',
} as const;

function places({ facts, length }: Plan): string[] {
  const way1 = length ?? facts.length?.text ?? '1..10 m';
  return [
    'places:',
    `  take-off: ${SPOTS[facts.battery ?? 'bonnet']}  ${mark(facts.battery !== null, 'look where it is')}`,
    '  dash:     { label: Dashboard }',
    '  locker:   { label: Locker with charger and house battery }',
    'routes:',
    `  - { from: take-off, to: locker, length: ${way1}, in: conduit }  ${mark(facts.length !== null, 'lay a string and measure it')}`,
    `  - { from: dash, to: locker, length: ${way1}, in: loom }  ${ASSUMED}: as the one above`,
  ];
}

function parts(plan: Plan): string[] {
  return ['parts:', ...vehicleParts(plan), ...controlParts(plan), ...houseParts(plan)];
}

function vehicleParts({ facts, scale, way, feedRating }: Plan): string[] {
  const curve =
    '[{ at: 110 %, opens: never..14400 s }, { at: 200 %, opens: 1..15 s }, { at: 350 %, opens: 0.3..5 s }, { at: 600 %, opens: 0.1..1 s }]';
  return [
    `  vehicle-battery: { kind: battery, at: take-off, role: vehicle, chemistry: flooded, capacity: 60..100 Ah }  ${ASSUMED}: read the battery`,
    ...source(facts),
    `  # ${CHOICE.slice(2)}: buy a fuse that breaks at least this and opens at least this fast, and keep its sheet`,
    `  feed-fuse: { kind: fuse, at: take-off, family: bolt-down, rating: ${feedRating} A, interrupts: 6 kA, dc-rating: ${scale > 1 ? 58 : 32} V, curve: ${curve} }`,
    `  body: { kind: body-section, medium: steel }  ${ASSUMED}`,
    '  factory-ground: { kind: chassis-point, at: take-off, section: body }',
    ...(way === 'body'
      ? [
          '  locker-ground: { kind: chassis-point, at: locker, section: body }  # measure the loop: volts across, amperes through',
        ]
      : []),
  ];
}

function source({ supply, addedLimit }: SixFacts): string[] {
  const converter = `  vehicle-converter: { kind: vehicle-converter, at: take-off, limit: unknown, added-limit: ${addedLimit?.text ?? 'unknown'}, above: folds-back }  ${mark(addedLimit !== null, "the maker's limit for added loads")}`;
  const alternator = `  alternator: { kind: alternator, at: take-off, plate: unknown }  ${ASSUMED}: read the plate, such as "70/150 A 13.5 V"`;
  if (supply === 'converter') return [converter];
  return supply === null ? [alternator, converter] : [alternator];
}

function liveStates({ supply }: SixFacts): string {
  if (supply === 'converter') return 'ready';
  if (supply === 'variable') return 'idling, driving, overrun';
  return supply === null ? 'idling, driving, overrun, ready' : 'idling, driving';
}

function controlParts({ facts, scale }: Plan): string[] {
  return [
    `  run-signal: { kind: supply-point, at: dash, live: [${liveStates(facts)}], dead: others, measured: no, limit: 0.25 A, self-limiting: yes }  ${ASSUMED}: find one, load it, read it in every state`,
    `  run-relay: { kind: relay, at: locker, coil: ${scale > 1 ? 340 : 85} Ω, contacts: make, rating: 20 A, least-current: 1 mA, suppressed: yes, dc-rating: 32 V${scale > 1 ? ', pulls: 16 V, drops: 6 V' : ''} }  ${CHOICE}`,
    `  enable-fuse: { kind: fuse, at: locker, family: blade-f, rating: 3 A, interrupts: 2 kA, clearing: 30 A²s, dc-rating: ${scale > 1 ? 58 : 32} V }  ${CHOICE}`,
    `  charge-switch: { kind: switch, at: locker, operated-by: owner, rating: 3 A, least-current: 1 mA, dc-rating: 32 V }  ${CHOICE}`,
  ];
}

function houseParts({ facts, amps, scale, houseRating }: Plan): string[] {
  const chemistry = facts.chemistry ?? 'lifepo4';
  const lithium = chemistry === 'lifepo4';
  const thresholds =
    scale > 1 ? ', starts: { signal: 24.6 V after 15 s }, stops: { signal: 24.0 V after 5 s }' : '';
  return [
    `  charger: { kind: dc-charger, at: locker, current: ${amps} A, enable: signal, low-input: stops, negative: common, dc-rating: ${16 * scale} V${thresholds} }  ${mark(facts.charger !== null, 'advised')}`,
    `  house-fuse: { kind: fuse, at: locker, family: class-t, rating: ${houseRating} A, interrupts: 20 kA, clearing: ${clearingOf(houseRating)} A²s }  ${CHOICE}`,
    `  house-battery: { kind: battery, at: locker, role: house, chemistry: ${chemistry}, capacity: ${facts.capacity?.text ?? '100..300 Ah'}, charge-limit: unknown${lithium ? ', opens: { charge: below 0 °C }' : ''} }  ${houseMark(facts)}`,
    `  shunt: { kind: shunt, at: locker, rating: 300 A }  ${CHOICE}`,
  ];
}

/** What of the house battery was given, so that it can be told apart later. */
function houseMark({ chemistry, capacity }: SixFacts): string {
  if (chemistry === null && capacity === null) return `${ASSUMED}: read the battery`;
  if (chemistry !== null && capacity !== null) return GIVEN;
  return `${GIVEN}, ${chemistry === null ? 'chemistry' : 'capacity'} assumed: read the battery`;
}

/** I²t that a bought class T fuse must stay below, A²s: rises with the square of the rating (12,000 at 60 A). */
function clearingOf(rating: number): number {
  return Math.ceil((12_000 * (rating / 60) ** 2) / 1000) * 1000;
}

/** Copper behind the house device, mm²: enough for its rating in a 45 °C cupboard at 105 °C insulation. */
function houseArea(rating: number): number {
  const steps: readonly (readonly [number, number])[] = [
    [30, 6],
    [40, 10],
    [60, 16],
    [80, 25],
    [100, 35],
    [125, 50],
  ];
  return steps.find(([amps]) => rating <= amps)?.[1] ?? 70;
}

function houseSize({ facts, houseRating }: Plan): string {
  const wanted = houseArea(houseRating);
  const stock = facts.stock.length > 0 ? facts.stock : usualStock(facts.practice);
  const sorted = stock.toSorted((a, b) => a.areaMm2 - b.areaMm2);
  return (sorted.find((size) => size.areaMm2 >= wanted * 0.99) ?? sorted.at(-1))?.text ?? `${wanted} mm2`;
}

function wires(plan: Plan): string[] {
  const american = plan.facts.practice === 'north-america';
  const thin = american ? '16 AWG' : '1 mm2';
  const earth = american ? '2 AWG' : '35 mm2';
  const house = houseSize(plan);
  const back =
    plan.way === 'body'
      ? 'locker-ground.stud, size: auto, insulation: pvc-105, length: 40 cm'
      : 'factory-ground.stud, size: auto, insulation: pvc-105, via: [locker, take-off]';
  return [
    'wires:',
    '  feed:     { from: vehicle-battery.+, to: feed-fuse.line, size: auto, insulation: pvc-105, length: 15 cm }',
    '  feed-2:   { from: feed-fuse.load, to: charger.in+, size: auto, insulation: pvc-105, via: [take-off, locker] }',
    `  return:   { from: charger.in-, to: ${back} }  ${mark(plan.facts.return !== null, 'a cable, or the body once its loop is measured')}`,
    `  earth:    { from: vehicle-battery.-, to: factory-ground.stud, size: ${earth}, insulation: pvc-105, length: 30 cm }  ${ASSUMED}: the vehicle's own`,
    `  tap:      { from: charger.in+, to: enable-fuse.line, size: ${thin}, length: 10 cm }`,
    `  tap-2:    { from: enable-fuse.load, to: run-relay.30, size: ${thin}, length: 20 cm }`,
    `  run:      { from: run-signal.out, to: run-relay.86, size: ${thin}, via: [dash, locker] }`,
    `  run-neg:  { from: run-relay.85, to: charger.in-, size: ${thin}, length: 20 cm }`,
    `  enable:   { from: run-relay.87, to: charge-switch.in, size: ${thin}, length: 40 cm }`,
    `  enable-2: { from: charge-switch.out, to: charger.enable, size: ${thin}, length: 40 cm }`,
    `  out:      { from: charger.out+, to: house-fuse.load, size: ${house}, insulation: pvc-105, length: 50 cm }`,
    `  bank:     { from: house-fuse.line, to: house-battery.+, size: ${house}, insulation: pvc-105, length: 15 cm }`,
    `  out-neg:  { from: charger.out-, to: shunt.system, size: ${house}, insulation: pvc-105, length: 50 cm }`,
    `  bank-neg: { from: shunt.battery, to: house-battery.-, size: ${house}, insulation: pvc-105, length: 20 cm }`,
  ];
}
