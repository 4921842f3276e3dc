/** The survey as the screen asks it: the states of this vehicle, and which supply point may serve as run signal. */
import {
  sentence,
  type Change,
  type Finding,
  type Operation,
  type Placed,
  type StateFacts,
  type StateId,
} from '@loomwright/engine';
import { sourceLine, type SourceLine } from './first.ts';
import type { Sessions } from './sessions.ts';

export interface StateHead {
  readonly id: StateId;
  readonly label: string;
  readonly running: boolean;
}

export type CellIs = 'live' | 'dead' | 'not read';
/** What a candidate is good for, in the order of the marks. */
export type Serves = 'may' | 'in-part' | 'unmeasured' | 'not-read' | 'may-not';

export interface WhyLine {
  readonly holds: 'met' | 'may-not' | 'open' | 'advice';
  readonly title: string;
  readonly says: string;
}

export interface Candidate {
  readonly id: string;
  readonly place: string;
  readonly terminal: string;
  readonly limit: string;
  readonly cells: readonly { readonly state: StateId; readonly is: CellIs }[];
  readonly serves: Serves;
  readonly verdict: string;
  readonly reason: string;
  readonly why: readonly WhyLine[];
  /** Whether a wire leads away from it. */
  readonly wired: boolean;
  readonly notRead: number;
}

export interface SurveyView {
  readonly text: string;
  readonly states: readonly StateHead[];
  readonly candidates: readonly Candidate[];
  readonly line: SourceLine | null;
  /** States whose post voltage was not read. */
  readonly postsNotRead: readonly string[];
}

export function surveyDesk(sessions: Sessions) {
  return {
    survey(text: string): SurveyView {
      const session = sessions.of(text);
      const { operation: op, findings } = session.judge();
      const points = [...op.parts.values()].filter(
        (part) => part.ability.signals !== undefined && !part.implied,
      );
      return {
        text,
        states: op.states.map(({ id, label, running }) => ({ id, label, running })),
        candidates: points.map((point) => candidate(point, op, findings)),
        line: sourceLine(op),
        postsNotRead: op.states
          .filter((state) => state.running && state.posts.typical === null)
          .map((state) => state.label),
      };
    },

    /** What would follow if the wires of the run signal were moved to this candidate: the findings about charging. */
    tryPoint(text: string, point: string): readonly WhyLine[] {
      const session = sessions.of(text);
      const changes = moved(session.build, point);
      if (changes.length === 0) return [];
      const copy = session.edit(changes);
      if (copy.build === null) return [];
      return copy
        .judge()
        .findings.filter((finding) => ABOUT_SIGNALS.includes(finding.check) && finding.verdict !== 'met')
        .map((finding) => ({
          holds: finding.verdict === 'danger' || finding.verdict === 'fault' ? 'may-not' : finding.verdict,
          title: finding.title,
          says: sentence(finding.says),
        }));
    },
  };
}

const ABOUT_SIGNALS: readonly string[] = [
  'enable',
  'enable-volts',
  'supply-point-limit',
  'no-start',
  'back-feed',
];

/** Puts every wire that begins or ends at another supply point's output on this one's. */
function moved(build: ReturnType<Sessions['of']>['build'], point: string): readonly Change[] {
  if (build === null) return [];
  const outs = new Set(
    [...build.parts.values()]
      .filter((part) => 'live' in part.fields && part.id !== point)
      .map((part) => `${part.id}.out`),
  );
  return [...build.wires.values()].flatMap((wire) => [
    ...(outs.has(wire.from) ? [{ set: ['wires', wire.id, 'from'], to: `${point}.out` }] : []),
    ...(outs.has(wire.to) ? [{ set: ['wires', wire.id, 'to'], to: `${point}.out` }] : []),
  ]);
}

function candidate(point: Placed, op: Operation, findings: readonly Finding[]): Candidate {
  const cells = op.states.map((state) => ({ state: state.id, is: cellOf(point, state.id) }));
  const judged = judgeCells(op.states, cells, point);
  const own = findings.filter(
    (finding) => finding.about.includes(point.id) && ABOUT_SIGNALS.includes(finding.check),
  );
  const place = point.at === null ? '' : (op.build.places.get(point.at)?.label ?? point.at);
  const { limit } = point.ability.signals ?? {};
  return {
    id: point.id,
    place,
    terminal: typeof point.read.raw('terminal') === 'string' ? String(point.read.raw('terminal')) : '',
    limit: limit === null || limit === undefined ? '' : `${limit.sourced.value} A`,
    cells,
    ...judged,
    why: [...judged.why, ...own.map(whyOf)],
    wired: op.wiresAt(`${point.id}.out`).length > 0,
    notRead: cells.filter((cell) => cell.is === 'not read').length,
  };
}

const whyOf = (finding: Finding): WhyLine => ({
  holds: finding.verdict === 'danger' || finding.verdict === 'fault' ? 'may-not' : finding.verdict,
  title: finding.title,
  says: sentence(finding.says),
});

function cellOf(point: Placed, state: StateId): CellIs {
  const signals = point.ability.signals;
  if (signals === undefined) return 'not read';
  if (signals.live.has(state)) return 'live';
  return signals.dead === 'others' || signals.dead.has(state) ? 'dead' : 'not read';
}

type Judged = Pick<Candidate, 'serves' | 'verdict' | 'reason' | 'why'>;

function judgeCells(states: readonly StateFacts[], cells: Candidate['cells'], point: Placed): Judged {
  const named = (is: CellIs, running: boolean): readonly string[] =>
    states
      .filter((state, index) => state.running === running && cells[index]?.is === is)
      .map((state) => state.label);
  const wrongLive = named('live', false);
  const wrongDead = named('dead', true);
  const rightLive = named('live', true);
  const unread = [...named('not read', false), ...named('not read', true)];
  const measured = point.ability.signals?.measured === true;
  const why: WhyLine[] = [
    {
      holds: wrongLive.length > 0 ? 'may-not' : named('not read', false).length > 0 ? 'open' : 'met',
      title: 'Dead in every state in which the engine does not run',
      says:
        wrongLive.length > 0
          ? `Live: ${listed(wrongLive)}.`
          : notRead(named('not read', false), `Dead: ${listed(named('dead', false))}.`),
    },
    {
      holds:
        wrongDead.length > 0
          ? rightLive.length > 0
            ? 'advice'
            : 'may-not'
          : named('not read', true).length > 0
            ? 'open'
            : 'met',
      title: 'Live whenever it runs',
      says:
        wrongDead.length > 0
          ? `Dead: ${listed(wrongDead)}.`
          : notRead(named('not read', true), `Live: ${listed(rightLive)}.`),
    },
    {
      holds: measured ? 'met' : 'open',
      title: 'Read on this vehicle, under load',
      says: measured ? 'Yes.' : 'Not yet: load it with a lamp or a resistor and read it in each state.',
    },
  ];
  if (point.read.flag('coded') === true)
    return {
      serves: 'may-not',
      verdict: 'May not',
      reason: 'Coded: only the maker’s own units understand it.',
      why,
    };
  if (wrongLive.length > 0)
    return {
      serves: 'may-not',
      verdict: 'May not',
      reason: `Live ${within(wrongLive)}: it would charge from the vehicle battery.`,
      why,
    };
  if (wrongDead.length > 0 && rightLive.length === 0)
    return {
      serves: 'may-not',
      verdict: 'May not',
      reason: `Dead ${within(wrongDead)}: it would never charge.`,
      why,
    };
  if (unread.length > 0)
    return {
      serves: 'not-read',
      verdict: 'Open, missing',
      reason: `${unread.length} to read: ${listed(unread)}.`,
      why,
    };
  if (wrongDead.length > 0)
    return {
      serves: 'in-part',
      verdict: 'May serve in part',
      reason: `Dead ${within(wrongDead)}: no charge then.`,
      why,
    };
  if (!measured)
    return {
      serves: 'unmeasured',
      verdict: 'May serve, once read here',
      reason: 'Live only while it runs, as stated; not yet read under load.',
      why,
    };
  return { serves: 'may', verdict: 'May serve', reason: 'Live only while the engine runs.', why };
}

const notRead = (unread: readonly string[], otherwise: string): string =>
  unread.length > 0 ? `Not read: ${listed(unread)}.` : otherwise;

/** "with ignition on and while driving". */
const within = (labels: readonly string[]): string => `when ${listed(labels)}`;

function listed(labels: readonly string[]): string {
  if (labels.length < 2) return labels[0] ?? 'none';
  return `${labels.slice(0, -1).join(', ')} and ${labels.at(-1)}`;
}
