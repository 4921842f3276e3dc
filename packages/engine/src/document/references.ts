/** Checks between the parts of a document: everything that is named must exist. */
import type { Id, Part, Path, Registry, Route, Terminals, Wire } from '../contracts/index.ts';
import { listed, nearest, quoted } from '../quantity/index.ts';
import { splitTerminal } from './ids.ts';
import { startOf } from './nodes.ts';
import type { Reading } from './reading.ts';
import type { Item } from './sections.ts';
import type { SourceText } from './source.ts';
import { Ways } from './ways.ts';

/** What has been read, as far as it could be. */
export interface Known {
  readonly systems: Readonly<Record<string, number>>;
  readonly places: ReadonlyMap<Id, unknown>;
  readonly parts: ReadonlyMap<Id, Part>;
  /** Parts with a fault in them. */
  readonly faulty: ReadonlySet<Id>;
  /** All part names written. */
  readonly partNames: ReadonlySet<Id>;
  readonly wires: ReadonlyMap<Id, Item>;
  readonly routes: readonly Item[];
  readonly measured: readonly Item[];
}

/** Fields of parts that name a system, and that name a body section, whatever their kind. */
const SYSTEM_FIELDS = ['system', 'input-system', 'output-system'] as const;
const SECTION_FIELDS = ['section', 'from', 'to'] as const;
/** Systems that are understood without being listed. */
const USUAL_SYSTEMS = ['vehicle', 'house'] as const;

export class References {
  readonly #reading: Reading;
  readonly #source: SourceText;
  readonly #registry: Registry;
  readonly #known: Known;
  readonly #terminals = new Map<Id, Terminals>();
  #sectionNames: readonly Id[] | undefined;

  constructor(reading: Reading, source: SourceText, registry: Registry, known: Known) {
    this.#reading = reading;
    this.#source = source;
    this.#registry = registry;
    this.#known = known;
  }

  checkAll(): void {
    for (const route of this.#known.routes) this.#route(route);
    for (const part of this.#known.parts.values()) this.#part(part);
    const ways = new Ways(this.#known.routes.map((item) => item.values as unknown as Route));
    for (const [id, item] of this.#known.wires) this.#wire(id, item, ways);
    for (const item of this.#known.measured) this.#ends(item);
  }

  #route({ values, path }: Item): void {
    this.#place(values['from'], [...path, 'from']);
    this.#place(values['to'], [...path, 'to']);
    if (values['from'] !== undefined && values['from'] === values['to'])
      this.#add(
        [...path, 'to'],
        String(values['to']),
        'another place',
        'found a route from a place to itself; a route joins two places',
      );
  }

  #part(part: Part): void {
    const path = ['parts', part.id];
    this.#reading.steps.nodes++;
    this.#place(part.at, [...path, 'at']);
    for (const field of SYSTEM_FIELDS) this.#system(part.fields[field], [...path, field]);
    for (const field of SECTION_FIELDS) this.#section(part.fields[field], [...path, field]);
    if (!this.#known.faulty.has(part.id)) this.#contradictions(part, path);
  }

  #contradictions(part: Part, path: Path): void {
    const read = this.#registry.readerFor(part, this.#known);
    for (const { field, message } of this.#registry.kinds.get(part.kind)?.contradictions?.(read) ?? []) {
      const at = this.#source.find([...path, field]) === null ? path : [...path, field];
      this.#add(at, this.#text(at), 'fields that agree', message);
    }
  }

  #wire(id: Id, { values, path, offset }: Item, ways: Ways): void {
    this.#reading.steps.nodes++;
    const from = this.#terminal(values['from'], [...path, 'from']);
    const to = this.#terminal(values['to'], [...path, 'to']);
    if (from && to && values['from'] === values['to'])
      this.#add(
        [...path, 'to'],
        String(values['to']),
        'another terminal',
        'found both ends of a wire on the same terminal; a wire joins two terminals',
      );
    const via = (values['via'] ?? []) as readonly Id[];
    const viaKnown = via.map((place, index) => this.#place(place, [...path, 'via', index])).every(Boolean);
    this.#returnWire(id, values['return'], [...path, 'return']);
    if (from && to && viaKnown && !this.#isWritten(path, 'length'))
      this.#way(values as unknown as Wire, via, ways, path, offset);
  }

  /** Also a value that could not be read counts as written: it has its own fault. */
  #isWritten(path: Path, field: string): boolean {
    return this.#source.find([...path, field]) !== null;
  }

  #returnWire(id: Id, name: unknown, path: Path): void {
    if (typeof name !== 'string') return;
    if (name === id)
      this.#add(
        path,
        name,
        'another wire',
        'found a wire that is its own return; name the wire that runs beside it',
      );
    else if (!this.#known.wires.has(name)) this.#absent(path, name, 'wire', this.#known.wires.keys());
  }

  #way(wire: Wire, via: readonly Id[], ways: Ways, path: Path, offset: number): void {
    const ends = [wire.from, wire.to].map((ref) => splitTerminal(ref)[0]);
    const homeless = ends.find((part) => this.#known.parts.get(part)?.at === undefined);
    if (homeless !== undefined) {
      if (this.#known.faulty.has(homeless)) return;
      return this.#lengthless(path, offset, `${homeless} has no place`, `say where ${homeless} is (at:)`);
    }
    const [first = '', last = ''] = ends.map((part) => this.#known.parts.get(part)?.at ?? '');
    const stops = [first, ...via, last];
    // A place that does not exist has been reported.
    if (stops.some((place) => !this.#known.places.has(place))) return;
    const gap = stops.findIndex((place, index) => index > 0 && !ways.joined(stops[index - 1] ?? '', place));
    if (gap > 0)
      this.#lengthless(path, offset, `no way between ${stops[gap - 1]} and ${stops[gap]}`, 'a route');
  }

  #lengthless(path: Path, offset: number, why: string, instead: string): void {
    const give = instead === 'a route' ? 'give a length or a route' : `give a length, or ${instead}`;
    this.#reading.faults.add({
      offset,
      found: '',
      expected: 'a length or a route',
      message: `found a wire with no length, and ${why}; ${give}`,
      path,
    });
  }

  #ends({ values, path }: Item): void {
    this.#terminal(values['from'], [...path, 'from']);
    this.#terminal(values['to'], [...path, 'to']);
  }

  /** True when the terminal exists. */
  #terminal(reference: unknown, path: Path): boolean {
    if (typeof reference !== 'string') return false;
    const [partName, terminal] = splitTerminal(reference);
    const part = this.#known.parts.get(partName);
    if (part === undefined) {
      if (!this.#known.partNames.has(partName))
        this.#absent(path, partName, 'part', this.#known.partNames, reference);
      return false;
    }
    if (this.#known.faulty.has(partName)) return false;
    const terminals = this.#terminalsOf(part);
    if (terminals.type === 'numbered') return this.#numbered(reference, partName, terminal, path);
    if (terminals.names.includes(terminal)) return true;
    this.#noTerminal(reference, partName, terminal, terminals.names, path);
    return false;
  }

  #terminalsOf(part: Part): Terminals {
    const known = this.#terminals.get(part.id);
    if (known !== undefined) return known;
    const read = this.#registry.readerFor(part, this.#known);
    const made = this.#registry.kinds.get(part.kind)?.terminals(read) ?? { type: 'named', names: [] };
    this.#terminals.set(part.id, made);
    return made;
  }

  #numbered(reference: string, part: Id, terminal: string, path: Path): boolean {
    if (/^[1-9]\d{0,3}$/.test(terminal)) return true;
    this.#add(
      path,
      reference,
      `${part}.1`,
      `found ${quoted(reference)}; the terminals of ${part} are numbered: write ${part}.1, ${part}.2 and so on`,
    );
    return false;
  }

  #noTerminal(reference: string, part: Id, terminal: string, names: readonly string[], path: Path): void {
    const near =
      this.#near(terminal, names) ?? names.find((name) => terminal !== '' && name.startsWith(terminal));
    const meant = near === undefined ? '' : `did you mean ${part}.${near}? `;
    const has = names.length === 0 ? `${part} has no terminals` : `${part} has ${allOf(names)}`;
    this.#add(
      path,
      reference,
      listed(names.map((name) => `${part}.${name}`)),
      `found ${quoted(reference)}, a terminal that is not there; ${meant}${meant === '' ? has : `(${has})`}`,
      near === undefined ? undefined : `${part}.${near}`,
    );
  }

  /** True when the place exists. */
  #place(name: unknown, path: Path): boolean {
    if (typeof name !== 'string') return false;
    if (this.#known.places.has(name)) return true;
    this.#absent(path, name, 'place', this.#known.places.keys());
    return false;
  }

  #system(name: unknown, path: Path): void {
    if (typeof name !== 'string' || name === 'unknown') return;
    const names = new Set<string>([...Object.keys(this.#known.systems), ...USUAL_SYSTEMS]);
    if (!names.has(name)) this.#absent(path, name, 'system', names);
  }

  #section(name: unknown, path: Path): void {
    if (typeof name !== 'string' || name === 'unknown') return;
    const part = this.#known.parts.get(name);
    if (part === undefined) {
      if (!this.#known.partNames.has(name)) this.#absent(path, name, 'body section', this.#sections());
      return;
    }
    if (this.#isSection(part) || this.#known.faulty.has(name)) return;
    const all = this.#sections();
    const there = all.length === 0 ? 'there is none in this document' : `write ${listed(all)}`;
    this.#add(path, name, 'a body section', `found ${quoted(name)}, which is not a body section; ${there}`);
  }

  #sections(): readonly Id[] {
    const parts = [...this.#known.parts.values()];
    this.#sectionNames ??= parts.filter((part) => this.#isSection(part)).map((part) => part.id);
    return this.#sectionNames;
  }

  #isSection(part: Part): boolean {
    if (this.#known.faulty.has(part.id)) return false;
    const read = this.#registry.readerFor(part, this.#known);
    return this.#registry.kinds.get(part.kind)?.abilities(read).section !== undefined;
  }

  #absent(path: Path, name: string, what: string, names: Iterable<string>, found = name): void {
    const all = this.#reading.faults.full ? [] : [...names];
    const near = this.#near(name, all);
    const known =
      all.length === 0 ? `there is no ${what} in this document` : `${what}s here: ${shortList(all)}`;
    const advice = near === undefined ? known : `did you mean ${near}?`;
    this.#add(
      path,
      found,
      `the name of a ${what}`,
      `found ${quoted(found)}; there is no ${what} of the name ${quoted(name)}; ${advice}`,
      near,
    );
  }

  #near(name: string, names: readonly string[]): string | undefined {
    return this.#reading.faults.full ? undefined : nearest(name, names);
  }

  #text(path: Path): string {
    const notation = this.#source.notation(path);
    return typeof notation === 'string' ? notation : '';
  }

  #add(path: Path, found: string, expected: string, message: string, near?: string): void {
    const at = this.#source.find(path);
    const offset = startOf(at?.value ?? null, startOf(at?.key ?? null, 0));
    this.#reading.faults.add({ offset, found, expected, message, path, nearest: near });
  }
}

/** "+ and -". */
const allOf = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

const MOST_NAMES = 12;

const shortList = (names: readonly string[]): string =>
  names.length <= MOST_NAMES
    ? names.join(', ')
    : `${names.slice(0, MOST_NAMES).join(', ')} and ${names.length - MOST_NAMES} more`;
