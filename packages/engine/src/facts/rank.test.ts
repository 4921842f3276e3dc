import { describe, expect, it } from 'vitest';
import type { Basis, Finding } from '../contracts/index.ts';
import type { InSteps } from '../checks/judge.ts';
import { atOnce } from '../operate/index.ts';
import { rankFacts, type Choice } from './rank.ts';

const basis = (path: string, effort: Basis['effort'] = 'read'): Basis => ({
  path,
  label: path,
  how: `get ${path}`,
  effort,
  assumed: true,
  sourced: { value: 1, unit: 'A', prov: 'memory', source: 'test' },
});

const open = (
  id: string,
  kind: 'missing' | 'undecided' | 'unconfirmed',
  needs: readonly Basis[],
  dangerFamily = false,
): Finding => ({
  id,
  check: id.split('/')[0] ?? id,
  title: id,
  family: 'test',
  dangerFamily,
  verdict: 'open',
  open: kind,
  ifNot: 'fault',
  needs: needs.map((b) => ({ basis: b, why: 'test' })),
  says: '',
  value: { value: null, unit: '' },
  band: [null, null, null],
  limit: { value: null, unit: '' },
  margin: null,
  worst: null,
  others: 0,
  working: [],
  restsOn: [],
  statements: [],
  about: [],
  aside: null,
});

const met = (f: Finding): Finding => ({ ...f, verdict: 'met', open: null, needs: [] });

/** Answers at hand take no steps. */
// oxlint-disable-next-line require-yield -- that is what it is for
function* given<T>(value: T): InSteps<T> {
  return value;
}

const rank = (
  findings: readonly Finding[],
  rejudge: (pinned: ReadonlySet<string>, only: ReadonlySet<string>) => readonly Finding[],
  choices: readonly Choice[] = [],
) => atOnce(rankFacts(findings, (pinned, only) => given(rejudge(pinned, only)), choices));

describe('facts worth getting', () => {
  it('rank by what they close, a danger family ten times; ties by effort, then by name', () => {
    const a = open('a/x', 'undecided', [basis('length', 'tape'), basis('load', 'engine')]);
    const b = open('b/x', 'undecided', [basis('load', 'engine')], true);
    const facts = rank([a, b], (pinned, only) =>
      [a, b]
        .filter((f) => only.has(f.id))
        .map((f) => (pinned.has('load') || (pinned.has('length') && f === a) ? met(f) : f)),
    );
    expect(facts.map((f) => [f.basis.path, f.score])).toEqual([
      ['load', 11],
      ['length', 1],
    ]);
  });

  it('name nothing that can change no verdict', () => {
    const a = open('a/x', 'undecided', [basis('efficiency')]);
    expect(rank([a], () => [a])).toEqual([]);
  });

  it('a figure that alone is missing closes its finding without judging again', () => {
    const a = open('a/x', 'missing', [basis('rating')]);
    const facts = rank([a], () => {
      throw new Error('not needed');
    });
    expect(facts.map((f) => f.closes)).toEqual([['a/x']]);
  });

  it('a choice closes what is open under none of its answers', () => {
    const a = open('a/x', 'undecided', []);
    const b = open('b/x', 'undecided', []);
    const choice = {
      basis: basis('vehicle.supply'),
      outcomes: () =>
        given([
          [met(a), met(b)],
          [met(a), b],
        ]),
    };
    expect(rank([a, b], () => [], [choice]).map((f) => f.closes)).toEqual([['a/x']]);
  });
});
