/** One verdict from what a check says with all values nominal, all slack and all stiff. */
import type {
  Basis,
  Check,
  Finding,
  Judgement,
  Need,
  Practice,
  Statement,
  Subject,
  Verdict,
} from '../contracts/index.ts';
import { clearlyLess } from './support/worst.ts';

/** How bad, in rising order. */
const LEVELS = ['met', 'advice', 'fault', 'danger'] as const;
type Level = (typeof LEVELS)[number];

export interface Three {
  readonly nominal: Judgement;
  readonly slack: Judgement;
  readonly stiff: Judgement;
}

/**
 * It holds in all three: met (or advice where the check notes something); it fails in all: fault or danger; else open,
 * undecided. A figure is missing: open, missing. It holds but its limit is from memory or unmeasured: open, unconfirmed.
 */
export function combine(
  check: Check,
  subject: Subject,
  three: Three,
  practice: Practice,
  aside: Finding['aside'],
): Finding {
  const all = [three.nominal, three.slack, three.stiff];
  const levels = all.map((j) => levelOf(check, j));
  const best = levels.reduce(lower);
  const worst = levels.reduce(higher);
  const decided = decide(check, three, best, worst, levels[0] ?? 'met');
  const shown = shownOf(all, levels, decided.verdict);
  return {
    id: `${check.id}/${subject.id}`,
    check: check.id,
    title: check.title,
    family: check.family,
    dangerFamily: check.danger,
    verdict: decided.verdict,
    open: decided.open,
    ifNot: decided.ifNot,
    needs: decided.needs,
    says: shown.says,
    value: shown.value,
    band: [three.nominal.value.value, three.slack.value.value, three.stiff.value.value],
    limit: shown.limit,
    margin: shown.margin,
    worst: shown.worst,
    others: shown.others,
    working: shown.working,
    restsOn: distinct(shown.restsOn),
    statements: check.statements
      .map((id) => practice.statements.get(id))
      .filter((s): s is Statement => s !== undefined),
    about: shown.about,
    aside,
  };
}

interface Decided {
  readonly verdict: Verdict;
  readonly open: Finding['open'];
  readonly ifNot: Finding['ifNot'];
  readonly needs: readonly Need[];
}

function decide(check: Check, three: Three, best: Level, worst: Level, nominal: Level): Decided {
  const all = [three.nominal, three.slack, three.stiff];
  const missing = all.flatMap((j) => (j.holds === null ? j.missing : []));
  if (all.some((j) => j.holds === null)) {
    return {
      verdict: 'open',
      open: 'missing',
      ifNot: failing(check, three.nominal),
      needs: distinctNeeds(missing),
    };
  }
  if (bad(best)) return settled(worst);
  if (bad(worst))
    return {
      verdict: 'open',
      open: 'undecided',
      ifNot: worst === 'danger' ? 'danger' : 'fault',
      needs: undecided(all),
    };
  // Few limits are: the list is made only where one is.
  const doubtful = all.some((j) => j.limits.some(isFromMemory))
    ? distinct(all.flatMap((j) => j.limits)).filter(isFromMemory)
    : [];
  const severity = failing(check, three.nominal);
  if (doubtful.length > 0 && severity !== 'advice') {
    const needs = doubtful.map((basis) => ({ basis, why: `from memory: ${confirmWords(basis)}` }));
    return { verdict: 'open', open: 'unconfirmed', ifNot: severity, needs };
  }
  return settled(nominal);
}

const isFromMemory = (b: Basis): boolean => b.sourced.prov === 'memory';

/** How a build says that somebody vouches for it. */
const confirmWords = ({ path }: Basis): string =>
  path.startsWith('table:') ? `confirm it as table "${path.slice('table:'.length)}"` : 'confirm it';

const settled = (level: Level): Decided => ({ verdict: level, open: null, ifNot: null, needs: [] });

const bad = (level: Level): boolean => level === 'fault' || level === 'danger';

/** What a failure of this judgement is. */
function failing(check: Check, j: Judgement): 'danger' | 'fault' | 'advice' {
  return j.severity ?? (check.danger ? 'danger' : 'fault');
}

function levelOf(check: Check, j: Judgement): Level {
  if (j.holds === false) return failing(check, j);
  return j.note === 'advice' ? 'advice' : 'met';
}

const lower = (a: Level, b: Level): Level => (LEVELS.indexOf(a) <= LEVELS.indexOf(b) ? a : b);
const higher = (a: Level, b: Level): Level => (LEVELS.indexOf(a) >= LEVELS.indexOf(b) ? a : b);

/** An undecided finding shows the case that fails, of several the one that fails by most; all others the nominal one. */
function shownOf(all: readonly Judgement[], levels: readonly Level[], verdict: Verdict): Judgement {
  const nominal = all[0];
  if (nominal === undefined) throw new Error('three judgements are needed');
  if (verdict !== 'open') return nominal;
  const failing = all.filter((_, i) => bad(levels[i] ?? 'met'));
  return failing.reduce(
    (worst, j) => (clearlyLess(shortBy(j), shortBy(worst)) ? j : worst),
    failing[0] ?? nominal,
  );
}

/** How far it fails, as a margin; without a figure it counts as failing by nothing. */
const shortBy = (j: Judgement): number => j.margin ?? 0;

/** The banded values that an undecided finding hangs on. */
function undecided(all: readonly Judgement[]): readonly Need[] {
  const banded = distinct(all.flatMap((j) => [...j.restsOn, ...j.limits])).filter(
    (b) => b.sourced.band !== undefined,
  );
  return widestFirst(banded).map((basis) => ({ basis, why: 'its band decides this' }));
}

const isOhms = (b: Basis): boolean => b.sourced.unit === 'Ω';
const bandWidth = ({ sourced: { band } }: Basis): number => (band === undefined ? 0 : band[1] - band[0]);

/** Resistances in the order of their bands, the widest first: in a loop the widest moves most. Other values keep their places. */
function widestFirst(banded: readonly Basis[]): readonly Basis[] {
  const ohms = banded.filter(isOhms).toSorted((a, b) => bandWidth(b) - bandWidth(a));
  let next = 0;
  return banded.map((b) => (isOhms(b) ? (ohms[next++] ?? b) : b));
}

function distinct(list: readonly Basis[]): readonly Basis[] {
  if (list.length < 2) return list;
  const seen = new Map<string, Basis>();
  for (const b of list) if (!seen.has(b.path)) seen.set(b.path, b);
  return [...seen.values()];
}

function distinctNeeds(list: readonly Need[]): readonly Need[] {
  const seen = new Map<string, Need>();
  for (const n of list) if (!seen.has(n.basis.path)) seen.set(n.basis.path, n);
  return [...seen.values()];
}
