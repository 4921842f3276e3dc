import type { Build, Change } from './build.ts';
import type { Id, StateId } from './ids.ts';
import type { Operation } from './operation.ts';
import type { Basis } from './values.ts';

export const VERDICTS = ['danger', 'fault', 'open', 'advice', 'met'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** One line of a working: what, how, result. Words and SI numbers; printed in one place. */
export interface Step {
  readonly what: string;
  /** The arithmetic as a person would write it: "30 × 14.4 / 0.88". */
  readonly how: string;
  readonly value: number | null;
  /** Unit of `value`: V A mV W mm2 m mm s ms °C K Ah mΩ Ω A²s %, '' = a pure number. */
  readonly unit: string;
  readonly source?: string;
  /** Parts and wires the line speaks of. */
  readonly about?: readonly Id[];
}

/** Value or limit of a finding. */
export interface Measure {
  readonly value: number | null;
  readonly unit: string;
  /** When value is null or needs words: "never", "no device". */
  readonly words?: string;
}

/** Something that is missing or unconfirmed, and how it is had. */
export interface Need {
  readonly basis: Basis;
  readonly why: string;
}

/** What a check says of a subject under one assumption. */
export interface Judgement {
  /** The statement holds. `null`: it cannot be said (see `missing`). */
  readonly holds: boolean | null;
  /** What it is when it does not hold; default by the check's family. */
  readonly severity?: 'danger' | 'fault' | 'advice';
  /** When it holds only as advice (something to know although nothing is broken). */
  readonly note?: 'advice';
  /** One plain sentence: what is so. */
  readonly says: string;
  readonly value: Measure;
  readonly limit: Measure;
  /** Signed distance to the limit in the unit of the value, > 0 = on the good side; null without one. */
  readonly margin: number | null;
  /** Condition id in which it is worst, and how many others fail. */
  readonly worst: string | null;
  readonly others: number;
  readonly working: readonly Step[];
  /** Values on the value side. */
  readonly restsOn: readonly Basis[];
  /** Values that are the limit: must be given, confirmed, seen, computed, practice or measured for "met". */
  readonly limits: readonly Basis[];
  /** Figures that are needed and not there: open, missing. */
  readonly missing: readonly Need[];
  /** Parts, wires and places it speaks of. */
  readonly about: readonly Id[];
}

export interface Subject {
  /** Rest of the finding's id: `charger`, `house-feed/house-battery`. */
  readonly id: string;
  readonly label: string;
}

export type StatementId = string;

export interface Statement {
  readonly id: StatementId;
  readonly text: string;
  readonly source: string;
  readonly prov: 'seen' | 'memory' | 'practice' | 'computed';
}

/** One check = one file + one registration line. Checks never read each other. */
export interface Check {
  /** First part of the finding's id. */
  readonly id: string;
  readonly title: string;
  /** Named family, for grouping. */
  readonly family: string;
  /** Danger family: a failure is a danger, and an open verdict bars exit code 0. */
  readonly danger: boolean;
  readonly statements: readonly StatementId[];
  /** It judges what the others have read of the build, and so comes after them. */
  readonly afterAll?: true;
  subjects(op: Operation): readonly Subject[];
  judge(subject: Subject, op: Operation, practice: Practice): Judgement;
  /** Changes that would clear it, most natural first; each is applied to a copy and judged again before it is offered. */
  remedies?(subject: Subject, op: Operation, judgement: Judgement, practice: Practice): readonly Remedy[];
  /**
   * Small build documents: this check must fail (or not be met), and must be met. `failing` is empty where no build that reads
   * can fail: what is judged is the program.
   */
  readonly failing: string;
  readonly passing: string;
}

export interface Remedy {
  readonly title: string;
  readonly changes: readonly Change[];
}

/** A named rule set. */
export interface Practice {
  readonly id: 'north-america' | 'europe';
  readonly title: string;
  readonly statements: ReadonlyMap<StatementId, Statement>;
  /** Greatest share of the ampacity that the sustained protection may be. */
  readonly ratingFactor: number;
  /** Permitted unprotected length, m; the second value (when met only up to the first): beyond it danger, between open. */
  readonly reach: { readonly plain: Basis; readonly sheathed: Basis; readonly doubtful: Basis | null };
  /** Ampacity tables tried in turn: the first seen, a later one from memory. */
  readonly tables: readonly AmpacityTable[];
  /** Factor for so many loaded conductors together, the judged one included. */
  bundle(count: number): Basis;
  readonly dropLimits: { readonly critical: Basis; readonly other: Basis };
}

export interface AmpacityTable {
  readonly name: string;
  /** Confirmed tables: the path of its basis. */
  readonly path: string;
  /** Base figure for a size, an insulation, a way of laying, and an air temperature, A. */
  look(q: AmpacityQuestion): AmpacityAnswer;
}

export interface AmpacityQuestion {
  readonly areaMm2: number;
  readonly awg: string | null;
  readonly insulation: string;
  readonly insulationC: number;
  readonly in: 'free' | 'conduit' | 'loom' | 'bundle' | 'spaced';
  readonly airC: number;
  readonly engineSpace: boolean;
}

export interface AmpacityAnswer {
  /** A before bundling; null: no figure. */
  readonly amps: number | null;
  readonly basis: Basis | null;
  /** Ambient or engine-space factor that the caller still has to apply (1 where the table has its own air columns). */
  readonly airFactor: number;
  readonly airLabel: string;
  /** Where the air factor comes from; null where it is 1. */
  readonly airBasis: Basis | null;
  readonly reason: string | null;
}

/** A statement judged on this build over its bands. */
export interface Finding {
  readonly id: string;
  readonly check: string;
  readonly title: string;
  readonly family: string;
  readonly dangerFamily: boolean;
  readonly verdict: Verdict;
  /** Only with `open`. */
  readonly open: 'missing' | 'undecided' | 'unconfirmed' | null;
  /** With `open`: what it is if it turns out badly. */
  readonly ifNot: 'danger' | 'fault' | 'advice' | null;
  readonly needs: readonly Need[];
  readonly says: string;
  readonly value: Measure;
  /** Values at nominal, slack, stiff. */
  readonly band: readonly [number | null, number | null, number | null];
  readonly limit: Measure;
  readonly margin: number | null;
  readonly worst: string | null;
  readonly others: number;
  readonly working: readonly Step[];
  readonly restsOn: readonly Basis[];
  readonly statements: readonly Statement[];
  readonly about: readonly Id[];
  readonly aside: { readonly reason: string; readonly by?: string; readonly date?: string } | null;
}

/** A fact worth getting. */
export interface Fact {
  readonly basis: Basis;
  readonly score: number;
  /** Findings that would stop being open. */
  readonly closes: readonly string[];
  readonly how: string;
}

export type { Build, StateId };
