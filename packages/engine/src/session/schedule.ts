/** The conductor schedule: one row for each wire, with why it has its size. */
import type { Finding, Id, Operation } from '../contracts/index.ts';
import type { DrawingSubject } from '../drawing/index.ts';
import { measureLine, printValue } from '../report/index.ts';
import type { AutoSize } from '../sizing/auto.ts';

export interface ScheduleRow {
  readonly wire: Id;
  readonly number: string;
  readonly from: string;
  readonly to: string;
  readonly size: string;
  /** Found by the engine, not given by a person. */
  readonly sizeDerived: boolean;
  readonly colour: string;
  readonly insulation: string;
  readonly insulationAssumed: boolean;
  readonly length: string;
  readonly lengthDerived: boolean;
  /** What it carries at most over all judged conditions, and what it may carry for good. */
  readonly most: string;
  readonly may: string;
  readonly protectedAt: string;
  readonly why: string;
  /** The finding behind the reason; null where there is none. */
  readonly finding: string | null;
}

export interface Scheduled {
  readonly operation: Operation;
  readonly subject: DrawingSubject;
  readonly findings: readonly Finding[];
  readonly auto: AutoSize | null;
}

export function scheduleOf(of: Scheduled): readonly ScheduleRow[] {
  const { operation, subject, auto } = of;
  return [...operation.wires.values()].map((wire) => {
    const drawn = subject.wires.get(wire.id);
    const derived = auto?.wires.includes(wire.id) === true;
    const most = operation.all().reduce((amps, solved) => Math.max(amps, solved.wireMost(wire.id)), 0);
    const may = operation.ampacity(wire.id)[0]?.amps ?? null;
    const reason = whyOf(of, wire.id, derived);
    return {
      wire: wire.id,
      number: drawn?.number ?? wire.id,
      from: endOf(subject, wire.from),
      to: endOf(subject, wire.to),
      size: wire.sizeText,
      sizeDerived: derived,
      colour: drawn?.colour ?? '',
      insulation: wire.insulation,
      insulationAssumed: wire.insulationAssumed,
      length: wire.length === null ? 'no figure' : printValue(wire.length.sourced.value, 'm'),
      lengthDerived: wire.lengthFrom === 'routes',
      most: printValue(most, 'A'),
      may: printValue(may, 'A'),
      protectedAt: drawn?.rating ?? '',
      ...reason,
    };
  });
}

/** `F1 load`. */
function endOf(subject: DrawingSubject, ref: string): string {
  const dot = ref.indexOf('.');
  const part = ref.slice(0, dot);
  return `${subject.parts.get(part)?.designation ?? part} ${ref.slice(dot + 1)}`;
}

/** Checks that a thicker or thinner wire answers to, in the order in which they are named where they are equally near. */
const SIZING: readonly string[] = [
  'conductor',
  'clearing',
  'hunting',
  'input-window',
  'rating-window',
  'drop',
  'output-drop',
  'mechanical-size',
];

function whyOf(
  { findings, auto }: Scheduled,
  wire: Id,
  derived: boolean,
): Pick<ScheduleRow, 'why' | 'finding'> {
  if (derived && auto !== null) {
    const governing = findings.find((finding) => finding.id === auto.governedBy);
    if (governing === undefined) return { why: 'the smallest of the stock serves', finding: null };
    const serves = auto.serves ? 'the next smaller size fails' : 'even the largest of the stock fails';
    return { why: `${serves}: ${lower(governing.title)}`, finding: governing.id };
  }
  const about = findings.filter((finding) => finding.about.includes(wire) && SIZING.includes(finding.check));
  const tightest = about.toSorted(
    (a, b) => nearness(a) - nearness(b) || SIZING.indexOf(a.check) - SIZING.indexOf(b.check),
  )[0];
  if (tightest === undefined) return { why: 'nothing asks for more', finding: null };
  const line = measureLine(tightest);
  return { why: line === '' ? tightest.title : `${tightest.title}: ${line}`, finding: tightest.id };
}

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

const RANK: Readonly<Record<Finding['verdict'], number>> = {
  danger: -4,
  fault: -3,
  open: -2,
  advice: -1,
  met: 0,
};

/** How near a finding is to its limit, as a share of it; what is not met comes first. */
function nearness({ verdict, margin, limit }: Finding): number {
  const share =
    margin === null || limit.value === null || limit.value === 0 ? 9 : margin / Math.abs(limit.value);
  return RANK[verdict] * 100 + share;
}
