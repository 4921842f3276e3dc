/** Parts out of text, and surroundings to ask them in: for the tests of the kinds. */
import type {
  Assumption,
  Basis,
  CornerFacts,
  Kind,
  Part,
  Push,
  StateFacts,
  StateId,
  Surroundings,
  ValueReader,
} from '../../contracts/index.ts';
import { STATE_IDS } from '../../contracts/index.ts';
import { makeValues, type Values } from '../../devices/values.ts';
import { readDocument } from '../../document/index.ts';
import { fieldContext } from '../context.ts';
import { makeRegistry } from '../registry.ts';

export interface Asked {
  readonly kind: Kind;
  readonly part: Part;
  readonly read: ValueReader;
  readonly values: Values;
  readonly systems: Readonly<Record<string, number>>;
}

const registry = makeRegistry();

/** The part named `x` of a document made of it and of what else is said; throws with the faults when it does not read. */
export function partOf(
  text: string,
  more: { readonly systems?: string; readonly parts?: string; readonly push?: Push } = {},
): Asked {
  const document = `loomwright: 1
title: Test
practice: europe
systems: ${more.systems ?? '{ vehicle: 12 V, house: 12 V }'}
parts:
  x: ${text}
${more.parts ?? ''}
`;
  const { build, diagnostics } = readDocument(document, registry);
  if (build === null) throw new Error(diagnostics.map((d) => d.message).join('\n'));
  const part = build.parts.get('x');
  if (part === undefined) throw new Error('no part x');
  return asked(part, build.systems, more.push);
}

/** A part with a reader under an assumption. */
export function asked(part: Part, systems: Readonly<Record<string, number>>, push: Push = 'nominal'): Asked {
  const kind = registry.kinds.get(part.kind);
  if (kind === undefined) throw new Error(`no kind ${part.kind}`);
  const assumption: Assumption = { push, pinned: new Set() };
  const values = makeValues(assumption);
  const table = { ...registry.common, ...kind.fields };
  const read = values.reader(
    `parts.${part.id}`,
    part.id,
    table,
    part.fields,
    fieldContext(part, { systems }, registry.kinds),
  );
  return { kind, part, read, values, systems };
}

const basis = (value: number, path = 'test'): Basis => ({
  path,
  label: path,
  how: '',
  effort: 'read',
  assumed: false,
  sourced: { value, unit: '', prov: 'given', source: 'test' },
});

const FED: ReadonlySet<StateId> = new Set(['idling', 'driving', 'overrun']);

export function state(id: StateId, more: Partial<StateFacts> = {}): StateFacts {
  const supply = FED.has(id) ? 'alternator' : id === 'ready' || id === 'plugged-in' ? 'converter' : 'off';
  return {
    id,
    label: id,
    ignition: true,
    supply,
    speed: supply === 'alternator' ? (id === 'idling' ? 'idle' : 'road') : null,
    recovering: id === 'overrun',
    cranking: id === 'cranking',
    stored: id === 'stored',
    running: supply !== 'off',
    ownLoad: basis(30),
    surveyedLoad: null,
    lasts: basis(600),
    lastsGiven: false,
    comesFrom: [],
    posts: { min: null, typical: null, max: null },
    output: null,
    ...more,
  };
}

export const QUIET: CornerFacts = {
  id: 'typical-quiet',
  source: 'typical',
  air: 'typical',
  vehicleBattery: 'full',
  houseBattery: 'half',
  busy: false,
  ratedOutput: false,
};
export const WEAK: CornerFacts = {
  id: 'weak',
  source: 'least',
  air: 'hottest',
  vehicleBattery: 'low',
  houseBattery: 'low',
  busy: true,
  ratedOutput: true,
};
export const STRONG: CornerFacts = {
  id: 'strong',
  source: 'greatest',
  air: 'coldest',
  vehicleBattery: 'full',
  houseBattery: 'full',
  busy: false,
  ratedOutput: false,
};

export interface Around extends Partial<Omit<Surroundings, 'wired' | 'wiredTerminals' | 'other' | 'read'>> {
  /** Terminals with a wire; all named ones when not given. */
  readonly wires?: readonly string[];
  readonly sections?: Readonly<Record<string, ValueReader>>;
}

export function surroundings(of: Asked, around: Around = {}): Surroundings {
  const { wires, sections, ...more } = around;
  const terminals = of.kind.terminals(of.read);
  const wired = wires ?? (terminals.type === 'named' ? terminals.names : ['1', '2', '3']);
  return {
    read: of.read,
    part: of.part.id,
    mode: 'service',
    state: state('driving'),
    corner: QUIET,
    shore: false,
    sun: false,
    closed: true,
    opened: false,
    memory: 0,
    air: 20,
    nominal: { vehicle: of.systems['vehicle'] ?? 12, house: of.systems['house'] ?? 12 },
    vehicle: { supply: 'alternator', engine: true, hasVehicleBattery: true },
    setPoint: basis(14.2),
    leastSetPoint: 13.5,
    vehicleRest: null,
    bankHeldAt: null,
    sectionMedium: () => 'steel',
    unknownLive: false,
    wiredTerminals: wired.toSorted(),
    wired: (terminal) => wired.includes(terminal),
    other: (id) => sections?.[id] ?? null,
    ...more,
  };
}

const HELD: ReadonlyMap<string, number> = new Map([['house', 14.4]]);

/** A grid of surroundings over everything that may change for a part. */
export function grid(of: Asked, fixed: Around = {}): readonly Surroundings[] {
  const found: Surroundings[] = [];
  for (const id of STATE_IDS)
    for (const corner of [QUIET, WEAK, STRONG])
      for (const mode of ['service', 'fault-greatest', 'fault-least'] as const)
        for (const opened of [false, true])
          for (const memory of [0, 1])
            for (const odd of [false, true])
              found.push(
                surroundings(of, {
                  ...fixed,
                  state: state(id),
                  corner,
                  mode,
                  opened,
                  closed: !opened && !odd,
                  memory,
                  air: odd ? -20 : 60,
                  unknownLive: odd,
                  bankHeldAt: odd ? HELD : null,
                  vehicleRest: odd ? 13.1 : null,
                }),
              );
  return found;
}

export { basis };
