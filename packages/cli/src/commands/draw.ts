/** `draw FILE --out DIR`: the wiring drawing as pages to print. */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import {
  asFile,
  draftReason,
  makeDraughtsman,
  outlineMap,
  readOrder,
  subjectOf,
  type Book,
  type Elk,
  type ElkGraph,
  type Order,
  type WireView,
} from '@loomwright/engine';
import { UsageError, type Arguments } from '../args.ts';
import { reasonOf } from '../host.ts';
import { BAD_INPUT, openFile, type Command, type Opened } from './command.ts';

const VIEWS: readonly WireView[] = ['power', 'control', 'negative'];
const ORDER_FILE = 'drawing-order.json';
const FAILED = 1;

export const draw: Command = {
  help: {
    name: 'draw',
    operands: 'FILE',
    summary: 'the wiring drawing as pages to print: power, control, negative',
    teaches: [
      'Draws every wire by place, nose left, tail right, so that the drawing is a map of the vehicle. Each view is cut into as many pages as it needs at full size; a part that stands on two pages says where else it is seen.',
      'Beside the pages comes a picture of the vehicle: with all parts where they sit when the build is small enough for it, else with its places numbered.',
      'The pages are SVG files. DIR also keeps the order in which things were drawn, so that a small change of the build moves little on the next drawing; take that file away, or say --afresh, to lay everything out again.',
      'While a danger or an open danger stands, every page says DRAFT.',
    ],
    options: [
      { name: 'out', value: 'DIR', help: 'where the pages go; made when it is not there' },
      { name: 'paper', value: 'A4|Letter', help: 'paper size (default: Letter in North America, else A4)' },
      { name: 'view', value: 'all|power|control|negative', help: 'only this view (default: all)' },
      { name: 'date', value: 'TEXT', help: 'date in the title block (default: today)' },
      { name: 'afresh', help: 'forget the order of the last drawing' },
    ],
    examples: [
      ['loomwright draw van.yaml --out drawings', 'all pages'],
      ['loomwright draw van.yaml --out drawings --view power --paper Letter', 'one view on Letter paper'],
    ],
  },
  async run(args, context) {
    const { host } = context;
    const views = viewsOf(args);
    const folder = args.value('out');
    if (folder === null) throw new UsageError('--out DIR is missing: say where the pages go.');
    const paper = paperOf(args);
    const opened = await openFile(args.operands[0] ?? '', context);
    if (opened === null) return BAD_INPUT;
    const stored = args.flag('afresh') ? null : await storedOrder(folder);
    const drawn = await drawAll(opened, { paper, views, stored, date: args.value('date') ?? today() });
    try {
      for (const name of await save(folder, drawn)) host.out(`${name}\n`);
    } catch (error) {
      host.err(`loomwright: ${folder} was not written: ${reasonOf(error)}.\n`);
      return FAILED;
    }
    if (drawn.book.pages.length === 0) host.out('There is no wire to draw yet.\n');
    return 0;
  },
};

function viewsOf(args: Arguments): readonly WireView[] {
  const text = args.value('view') ?? 'all';
  const one = VIEWS.find((view) => view === text);
  if (text !== 'all' && one === undefined)
    throw new UsageError(`--view ${text}: write all, power, control or negative.`);
  return one === undefined ? VIEWS : [one];
}

type PaperName = 'A4' | 'Letter';

function paperOf(args: Arguments): PaperName | null {
  const text = args.value('paper');
  if (text === null) return null;
  const name = (['A4', 'Letter'] as const).find((each) => each.toLowerCase() === text.toLowerCase());
  if (name === undefined) throw new UsageError(`--paper ${text}: write A4 or Letter.`);
  return name;
}

const today = (): string => new Date().toISOString().slice(0, 10);

/** The order of the last drawing in this folder; it is only a hint: null when there is none that can be read. */
async function storedOrder(folder: string): Promise<Order | null> {
  try {
    return readOrder(JSON.parse(await readFile(join(folder, ORDER_FILE), 'utf8')));
  } catch {
    return null;
  }
}

interface Wanted {
  readonly paper: PaperName | null;
  readonly views: readonly WireView[];
  readonly stored: Order | null;
  readonly date: string;
}

interface Drawn {
  readonly book: Book;
  /** The picture of the whole vehicle by the name of its file: with the parts in it, or the small outline. */
  readonly vehicle: { readonly name: string; readonly svg: string } | null;
}

async function drawAll({ session, build }: Opened, wanted: Wanted): Promise<Drawn> {
  const judged = session.judge();
  const options = {
    paper: wanted.paper ?? (build.practice === 'north-america' ? ('Letter' as const) : ('A4' as const)),
    views: wanted.views,
    date: wanted.date,
    draft: draftReason(judged.findings),
  };
  const subject = subjectOf(judged.operation);
  const draughtsman = makeDraughtsman(await library());
  const book = await draughtsman.book(subject, options, wanted.stored);
  if (book.pages.length === 0 || wanted.views.length < VIEWS.length) return { book, vehicle: null };
  const vehicle = await draughtsman.vehicle(subject);
  if (vehicle !== null) return { book, vehicle: { name: 'vehicle.svg', svg: vehicle.svg } };
  return { book, vehicle: { name: 'places.svg', svg: outlineMap(subject, { width: MAP_WIDTH }) } };
}

/** mm */
const MAP_WIDTH = 120;

/** The layout library is loaded only when something is drawn. */
async function library(): Promise<Elk> {
  const { default: module } = await import('elkjs/lib/elk.bundled.js');
  const Library = module as unknown as new () => { layout(graph: ElkGraph): Promise<ElkGraph> };
  const elk = new Library();
  return (graph) => elk.layout(graph);
}

/** Writes everything; gives the names of the drawings. */
async function save(folder: string, { book, vehicle }: Drawn): Promise<readonly string[]> {
  const files = [
    ...book.pages.map((page) => ({ name: `drawing-${page.number}-${page.view}.svg`, svg: page.svg })),
    ...(vehicle === null ? [] : [vehicle]),
  ];
  await mkdir(folder, { recursive: true });
  for (const { name, svg } of files) await writeFile(join(folder, name), asFile(svg));
  await writeFile(join(folder, ORDER_FILE), `${JSON.stringify(book.order, null, 1)}\n`);
  return files.map(({ name }) => join(folder, name));
}
