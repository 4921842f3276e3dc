/** The first answer: six rows that stand on one screen, from one or more judged first designs. */
import type { Finding, Measure, Operation, Solved, StateId, Verdict } from '../contracts/index.ts';
import { formatSize, NO_BREAK_SPACE, type Size } from '../quantity/index.ts';
import type { Design } from './design.ts';
import type { SixFacts } from './six.ts';

/** A first design as judged. */
export interface FirstRun {
  readonly design: Design;
  readonly findings: readonly Finding[];
  readonly operation: Operation;
  readonly auto: FirstSize | null;
}

export interface FirstSize {
  readonly size: Size;
  readonly governedBy: string | null;
  readonly onceConfirmed: Size | null;
  readonly serves: boolean;
}

export type RowId = 'cable' | 'device' | 'hunts' | 'left-over' | 'signal' | 'driving';

export interface AnswerRow {
  readonly id: RowId;
  readonly name: string;
  readonly verdict: Verdict;
  /** The answer in few words; a number or band has its unit in `measures` instead, and this is null. */
  readonly words: string | null;
  /** One value, or the two ends of a band. */
  readonly measures: readonly Measure[];
  /** One line of why. */
  readonly why: string;
}

/**
 * The rows, in the order in which they are always shown. `runs` holds the designs that are tried for the whole of what is not
 * known (one per way back); `easiest` one with everything unknown at its kind end, for the lower end of the cable.
 */
export function firstAnswer(
  facts: SixFacts,
  runs: readonly [FirstRun, ...FirstRun[]],
  easiest: FirstRun | null,
): readonly AnswerRow[] {
  return [
    cableRow(runs, easiest),
    deviceRow(runs),
    huntRow(runs),
    leftOverRow(facts, runs),
    signalRow(facts),
    drivingRow(runs),
  ];
}

const RANK: Readonly<Record<Verdict, number>> = { met: 0, advice: 1, open: 2, fault: 3, danger: 4 };

function worstOf(findings: readonly (Finding | undefined)[]): Finding | null {
  return findings.reduce<Finding | null>(
    (worst, finding) =>
      finding !== undefined && (worst === null || RANK[finding.verdict] > RANK[worst.verdict])
        ? finding
        : worst,
    null,
  );
}

/** What a finding says, with why it is open. */
function openly({ open, says }: Finding): string {
  if (open === 'undecided') return `With everything assumed at its bad end: ${says}`;
  return open === 'unconfirmed' ? `${says} From memory: confirm it.` : says;
}

const byId = (run: FirstRun, id: string) => run.findings.find((finding) => finding.id === id);
const byCheck = (run: FirstRun, check: string) => run.findings.filter((finding) => finding.check === check);

function cableRow(runs: readonly FirstRun[], easiest: FirstRun | null): AnswerRow {
  const all = [...(easiest === null ? [] : [easiest]), ...runs];
  const autos = all.flatMap((run) => (run.auto === null ? [] : [run.auto]));
  const sizes = autos
    .flatMap((auto) => [auto.onceConfirmed ?? auto.size, auto.size])
    .toSorted((a, b) => a.areaMm2 - b.areaMm2);
  const [small, large] = [sizes[0], sizes.at(-1)];
  const ruling = autos.findLast((auto) => auto.size.areaMm2 === large?.areaMm2);
  const none = autos.find((auto) => !auto.serves);
  const row = { id: 'cable', name: 'Cable, each way', measures: [] } as const;
  if (small === undefined || large === undefined || ruling === undefined)
    return { ...row, verdict: 'open', words: 'no figure', why: 'Nothing to size.' };
  if (none !== undefined) {
    const why = `No size in stock serves: even ${formatSize(large)} fails ${titleOf(runs, none.governedBy)}.`;
    return { ...row, verdict: 'fault', words: `over ${formatSize(large)}`, why };
  }
  const words = small.areaMm2 === large.areaMm2 ? formatSize(large) : sizeBand(small, large);
  const why = cableWhy(runs, ruling);
  return { ...row, verdict: small.areaMm2 === large.areaMm2 ? 'met' : 'open', words, why };
}

function cableWhy(runs: readonly FirstRun[], { governedBy, onceConfirmed }: FirstSize): string {
  if (governedBy === null) return 'The smallest in stock serves.';
  const governs = `${titleOf(runs, governedBy)} governs: the next smaller size falls short there.`;
  if (onceConfirmed === null) return governs;
  return `${governs} ${formatSize(onceConfirmed)} serves once what is from memory is confirmed.`;
}

function sizeBand(small: Size, large: Size): string {
  const [a, b] = [formatSize(small), formatSize(large)];
  const unit = `${NO_BREAK_SPACE}mm²`;
  return a.endsWith(unit) && b.endsWith(unit) ? `${a.slice(0, -unit.length)} to ${b}` : `${a} to ${b}`;
}

/** The check's title of a finding id, in the words of a finding: "hunting" becomes its title. */
function titleOf(runs: readonly FirstRun[], id: string | null): string {
  const found = runs.flatMap((run) => run.findings).find((finding) => finding.id === id);
  return found === undefined ? (id ?? 'a check') : `${found.title} (${found.id})`;
}

function deviceRow(runs: readonly [FirstRun, ...FirstRun[]]): AnswerRow {
  const finding = worstOf(runs.map((run) => byId(run, 'rating-window/feed-fuse')));
  const [{ design, operation }] = runs;
  const row = {
    id: 'device',
    name: 'Fuse or breaker',
    measures: [],
    words: `${design.feedRating}${NO_BREAK_SPACE}A`,
  } as const;
  const window = nominalWindow(operation);
  const why = window === null ? '' : `${window} `;
  if (finding === null) return { ...row, verdict: 'open', why: `${why}No window could be worked out.` };
  return { ...row, verdict: finding.verdict, why: `${why}${openly(finding)}` };
}

const one = (value: number) => `${Number(value.toPrecision(3))}`;

/** "54.5 A / 0.8 in the heat = 68.2 A at least; the cable takes 121 A at most." on nominal values. */
function nominalWindow(op: Operation): string | null {
  const charger = [...op.parts.values()].find((part) => part.ability.converts !== undefined);
  const device = op.parts.get('feed-fuse');
  const input = charger?.ability.converts?.greatestInput;
  const weak = op.corners.find((corner) => corner.id === 'weak');
  if (device?.ability.protects === undefined || input === undefined || input === null || weak === undefined)
    return null;
  const factor = device.ability.protects.factor(op.air(device.at, weak).sourced.value).sourced.value;
  const carried = ['feed-2', 'return'].flatMap((id) =>
    op.wires.has(id) ? [Math.max(0, ...op.ampacity(id).map((each) => each.amps ?? 0))] : [],
  );
  const amps = input.sourced.value;
  const most =
    carried.length === 0 ? '' : `; the cable takes ${one(Math.min(...carried))}${NO_BREAK_SPACE}A at most`;
  return `${one(amps)}${NO_BREAK_SPACE}A / ${one(factor)} in the heat = ${one(amps / factor)}${NO_BREAK_SPACE}A at least${most}.`;
}

function huntRow(runs: readonly FirstRun[]): AnswerRow {
  const finding = worstOf(runs.flatMap((run) => byCheck(run, 'hunting')));
  const row = { id: 'hunts', name: 'Does it hunt?', measures: [] } as const;
  if (finding === null) return { ...row, verdict: 'met', words: 'no', why: 'Nothing here can hunt.' };
  const words = { met: 'no', advice: 'no', open: 'depends', fault: 'yes', danger: 'yes' }[finding.verdict];
  return { ...row, verdict: finding.verdict, words, why: openly(finding) };
}

const IDLE: readonly StateId[] = ['idling', 'ready'];

function leftOverRow(facts: SixFacts, runs: readonly FirstRun[]): AnswerRow {
  const row = { id: 'left-over', name: 'Left over at hot idle' } as const;
  const found = runs.flatMap((run) => IDLE.map((state) => byId(run, `surplus/${state}`)));
  const finding = worstOf(found);
  if (facts.supply === 'converter' && facts.addedLimit === null)
    return {
      ...row,
      verdict: 'open',
      words: "none until the maker's limit is known",
      measures: [],
      why: "What a converter may give to added loads is in its maker's instructions for body builders.",
    };
  if (finding === null)
    return { ...row, verdict: 'open', words: 'no figure', measures: [], why: 'No supply to judge.' };
  const numbers = found
    .flatMap((each) => each?.band ?? [])
    .filter((value): value is number => value !== null);
  if (numbers.length === 0)
    return { ...row, verdict: finding.verdict, words: 'no figure', measures: [], why: finding.says };
  const ends = [Math.min(...numbers), Math.max(...numbers)];
  return {
    ...row,
    verdict: finding.verdict,
    words: null,
    measures: ends.map((value) => ({ value, unit: 'A' })),
    why: finding.says,
  };
}

/** Voltage-sensed chargers start here at 12 V (makers' manuals, several). */
const SENSED_START = 13.3;

function signalRow(facts: SixFacts): AnswerRow {
  const row = { id: 'signal', name: 'Run signal needed?', measures: [] } as const;
  const scale = facts.system / 12;
  const start = `${SENSED_START * scale}${NO_BREAK_SPACE}V`;
  if (facts.supply === 'variable')
    return {
      ...row,
      verdict: 'advice',
      words: 'yes',
      why: `The voltage falls below the ${start} at which a voltage-sensed charger starts, while the engine runs.`,
    };
  if (facts.supply === null)
    return {
      ...row,
      verdict: 'open',
      words: 'depends',
      why: 'Not if the voltage stands still; yes if it varies, or if the engine stops at halts.',
    };
  return {
    ...row,
    verdict: 'met',
    words: 'no',
    why: `The voltage tells it: over ${start} only while ${facts.supply === 'converter' ? 'the converter feeds' : 'the engine runs'}. The design has one all the same, so that the owner can switch it off.`,
  };
}

const DRIVES: readonly StateId[] = ['driving', 'ready'];

function drivingRow(runs: readonly FirstRun[]): AnswerRow {
  const amps = runs.flatMap((run) => DRIVES.flatMap((state) => outputs(run, state)));
  const hunting = runs
    .flatMap((run) => byCheck(run, 'hunting'))
    .some((finding) => finding.verdict === 'open');
  const row = { id: 'driving', name: 'Driving gives, per hour' } as const;
  if (amps.length === 0)
    return {
      ...row,
      verdict: 'open',
      words: 'no figure',
      measures: [],
      why: 'It never charges on a typical drive.',
    };
  const low = hunting ? 0 : Math.min(...amps);
  const high = Math.max(...amps);
  const values = Math.abs(high - low) < 0.05 ? [high] : [low, high];
  return {
    ...row,
    verdict: hunting || low < 0.5 ? 'open' : 'met',
    words: null,
    measures: values.map((value) => ({ value, unit: 'Ah' })),
    why: hunting
      ? 'Nearly nothing where it hunts, else all that the charger has.'
      : 'Into a half-charged bank on a typical day.',
  };
}

/** A into the bank in that state with every switch in its normal position; none where the vehicle has no such state. */
function outputs(run: FirstRun, state: StateId): number[] {
  const { operation } = run;
  if (operation.stateFacts(state) === null) return [];
  const charger = [...operation.parts.values()].find((part) => part.ability.converts !== undefined);
  if (charger === undefined) return [];
  const solved: readonly Solved[] = operation.solve(
    operation.condition(state, 'typical-quiet', operation.normalHands),
  );
  return solved.map((outcome) => outcome.outAmps(charger.id));
}
