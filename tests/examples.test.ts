/** The example builds show what they are meant to show. */
import { readFileSync } from 'node:fs';
import { openSession, type Judged } from '@loomwright/engine';
import { beforeAll, describe, expect, it } from 'vitest';

const FOLDER = new URL('../examples/', import.meta.url);
const bytesOf = (name: string) => readFileSync(new URL(name, FOLDER));

const judged = new Map<string, Judged>();
function judge(name: string): Judged {
  const known = judged.get(name);
  if (known !== undefined) return known;
  const session = openSession(bytesOf(`${name}.yaml`));
  expect(session.diagnostics).toEqual([]);
  const made = session.judge();
  judged.set(name, made);
  return made;
}

const ids = (name: string, ...verdicts: readonly string[]): readonly string[] =>
  judge(name)
    .findings.filter((f) => verdicts.includes(f.verdict))
    .map((f) => f.id);

describe('examples', () => {
  it.each(['beekeepers-van', 'river-survey-van', 'delivery-van', 'piano-tuners-electric-van'])(
    '%s is sound: no danger, no fault, nothing open that could be a danger',
    (name) => {
      expect(ids(name, 'danger', 'fault')).toEqual([]);
      expect(judge(name).exitCode).toBe(0);
    },
  );

  it("the beekeeper's van takes 50 mm², and hunts when the supply is weaker at idle", () => {
    expect(judge('beekeepers-van').auto?.size.areaMm2).toBe(50);
    expect(ids('beekeepers-van-hunts', 'danger', 'fault')).toEqual(['hunting/charger']);
    expect(judge('beekeepers-van-hunts').exitCode).toBe(1);
  });
});

/** Faults of the catalogue that the camper holds, each with the findings that show it. */
const CAMPER: readonly (readonly [fault: string, finding: string])[] = [
  ['F01, F02 feed too thin', 'hunting/charger'],
  ['F06 charger larger than the surplus', 'surplus/driving'],
  ['F09 return past the sensor', 'sensor/sensor/charger'],
  ['F12, F14 no device at the battery', 'protected/feed/vehicle-battery'],
  ['F13 bank cable unprotected for too long', 'protected/bank/house-battery'],
  ['F13 bank reaches the dash unfused', 'protected/override-1/house-battery'],
  ['F15 device larger than the cable', 'rating/feed-2'],
  ['F18 resets itself', 'automatic-reset/feed-breaker'],
  ['F19 interrupts too little at a lithium bank', 'interrupting/bank-strip'],
  ['F20 thin branch behind a big device', 'rating/fridge-1'],
  ['F24 rated for too little voltage', 'voltage-rating/feed-breaker'],
  ['F28, F30 runs with the key on', 'enable/charges-only-while-the-engine-runs/charger'],
  ['F33 override feeds the ignition rail', 'back-feed/key-on'],
  ['F37 contact too heavy for the signal', 'wetting/charge-switch'],
  ['F41 enable wire unprotected', 'protected/enable/key-on'],
  ['F49 shunt by-passed', 'shunt-share/shunt'],
  ['F54 charged in frost', 'cold-charge/house-battery'],
  ['F59, F65 more than the battery takes', 'charge-sum/house-battery'],
];

describe('the camper with everything wrong', () => {
  let found: readonly string[] = [];
  beforeAll(() => {
    found = ids('faulty-camper', 'danger', 'fault');
  });

  it.each(CAMPER)('%s', (_, finding) => {
    expect(found).toContain(finding);
  });

  it('names each of them where it stands', () => {
    const text = bytesOf('faulty-camper.yaml').toString('utf8');
    const named = new Set(text.match(/F\d\d/g));
    for (const [fault] of CAMPER)
      for (const number of fault.match(/F\d\d/g) ?? []) expect(named).toContain(number);
    expect(named.size).toBeGreaterThanOrEqual(12);
  });
});
