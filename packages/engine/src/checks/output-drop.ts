/** Drop between a charger's output and the battery it charges: the charger believes the battery is full too soon. */
import type { Check, Judgement, Operation, Remedy, Solved, Step } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import type { Charger } from './support/charger.ts';
import { chargerById, chargers, charges, gives, heldVolts, sensesOutput } from './support/charger.ts';
import { settledExample } from './support/examples.ts';
import { thinOutputExample } from './support/examples-energy.ts';
import type { Feed } from './support/feed.ts';
import { banksOf, loopHops, loopSteps, wayBases, wiresOf } from './support/feed.ts';
import { judgement, missing, present, step } from './support/judgement.ts';
import { conduct, diodesOf, forwardVolts, lostWords, lowLoss } from './support/low-loss.ts';
import { chargerNeeds, wayNeeds } from './support/needs.ts';
import { thicker } from './support/sizes.ts';
import { A, capital, listed, V, whereWords } from './support/words.ts';
import type { Worst } from './support/worst.ts';
import { leastBy, whole, worstOf } from './support/worst.ts';

export const outputDrop: Check = {
  id: 'output-drop',
  title: "Little is lost on the charger's output side",
  family: 'drop',
  danger: false,
  statements: TOPICS.chargingVoltage,
  subjects: (op) => chargers(op).map((c) => ({ id: c.part.id, label: c.part.label })),
  judge: (subject, op) => judge(chargerById(op, subject.id), op),
  remedies(subject, op) {
    const charger = chargerById(op, subject.id);
    const charged = banks(charger, op);
    const lossy = charged.some((bank) => forwardVolts(op, diodesOf(bank)) > MOST_V);
    return [
      ...(lossy
        ? []
        : thicker(
            op,
            charged.flatMap((bank) => wiresOf(loopHops(bank))),
          )),
      ...lowLoss(op, charged.flatMap(diodesOf)),
      ...(sensesOutput(charger, op) ? [] : higher(op, charger, charged)),
    ];
  },
  failing: thinOutputExample,
  passing: settledExample,
};

/** More than this slows the charge down, V (common practice 0.1 to 0.2 V). */
const MOST_V = 0.2;

const banks = (c: Charger, op: Operation): readonly Feed[] => banksOf(op, c.outPlus, c.outMinus);

interface Lost {
  readonly bank: Feed;
  readonly out: number;
  readonly at: number;
  /** Between where the charger holds its voltage and the posts, V; without diodes from its own terminals. */
  readonly lost: number;
  /** What may be lost, V. */
  readonly most: number;
}

function judge(charger: Charger, op: Operation): Judgement {
  const label = capital(charger.part.label);
  const charged = banks(charger, op);
  if (charged.length === 0)
    return judgement({ holds: true, says: `${label} charges no battery.`, about: [charger.part.id] });
  const needs = [...chargerNeeds(charger), ...wayNeeds(op, charged.flatMap(loopHops))];
  if (needs.length > 0) {
    const says = `What is lost behind ${charger.part.label} cannot be said: ${listed(needs.map((n) => n.basis.label))} not given.`;
    return missing(says, needs, { severity: 'advice', about: [charger.part.id] });
  }
  const about = [
    charger.part.id,
    ...charged.flatMap((bank) => [...diodesOf(bank), ...wiresOf(loopHops(bank))]),
  ];
  const worst = worstOf(whole(op), (s) => {
    // Volts that differ while nothing flows are lost nowhere: the way is broken, which is said elsewhere.
    const most =
      charges(s, charger) && gives(s, charger)
        ? leastBy(lostIn(s, charger, charged, op), (l) => l.most - l.lost)
        : null;
    return most === null ? null : { margin: most.most - most.lost, of: most };
  });
  if (worst === null)
    return judgement({ holds: true, says: `${label} gives no output in any condition.`, about });
  const { bank, out, at, lost, most } = worst.of;
  const holds = worst.margin >= -1e-9 || (diodesOf(bank).length === 0 && sensesOutput(charger, op));
  return judgement({
    holds,
    severity: 'advice',
    says: () => sentence(charger, worst, holds, op),
    value: { value: lost, unit: 'V' },
    limit: { value: most, unit: 'V' },
    margin: worst.margin,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step('volts at the output', whereWords(worst.solved), out, 'V'),
      step(`volts at the posts of ${bank.part.id}`, whereWords(worst.solved), at, 'V'),
      ...loopSteps(worst.solved, bank),
      step('lost', `${V(out)} − ${V(at)}`, out - at, 'V'),
      ...madeUpSteps(charger, worst.of, sensesOutput(charger, op)),
    ],
    restsOn: present([charger.does.current, ...wayBases(op, loopHops(bank))]),
    about,
  });
}

/**
 * What each bank loses. Behind diodes only while all conduct: one that blocks has volts across it that nobody loses, and with
 * sense wires to one bank the others lose what they lie below it.
 */
function lostIn(s: Solved, charger: Charger, charged: readonly Feed[], op: Operation): readonly Lost[] {
  const split = charged.filter((bank) => diodesOf(bank).length > 0);
  const sensed = sensesOutput(charger, op);
  if (sensed && !split.every((bank) => conduct(s, diodesOf(bank)))) return [];
  const out = s.volts(charger.outPlus, charger.outMinus);
  return charged.flatMap((bank): readonly Lost[] => {
    const at = s.volts(bank.plus, bank.minus);
    if (out === null || at === null) return [];
    const diodes = diodesOf(bank);
    if (diodes.length === 0) return [{ bank, out, at, lost: out - at, most: MOST_V }];
    const held = heldVolts(s, charger, op);
    if (held === null || !conduct(s, diodes)) return [];
    return [{ bank, out, at, lost: held - at, most: MOST_V + (sensed ? 0 : raised(charger, bank)) }];
  });
}

/** Volts by which the charger is set above what the bank's sheet asks for: at its terminals, so that a diode may lose them. */
function raised(charger: Charger, bank: Feed): number {
  const asked = bank.part.ability.stores?.absorption ?? null;
  return asked === null ? 0 : Math.max(0, charger.does.setVolts.sourced.value - asked.sourced.value);
}

function madeUpSteps(
  charger: Charger,
  { bank, out, at, lost, most }: Lost,
  sensed: boolean,
): readonly Step[] {
  if (diodesOf(bank).length === 0) return [];
  const set = charger.does.setVolts;
  const asked = bank.part.ability.stores?.absorption ?? null;
  return [
    sensed
      ? step('below what is sensed', `${V(lost + at)} − ${V(at)}`, lost, 'V')
      : step(
          `at the posts of ${bank.part.id} with the output at what is set`,
          `${V(set.sourced.value)} − ${V(out - at)}`,
          set.sourced.value - (out - at),
          'V',
        ),
    ...(asked === null || most <= MOST_V
      ? []
      : [
          step(
            'set higher to make up for it',
            `${V(set.sourced.value)} − ${V(asked.sourced.value)}, which ${bank.part.id} asks for`,
            most - MOST_V,
            'V',
          ),
        ]),
  ];
}

function sentence(charger: Charger, worst: Worst<Lost>, holds: boolean, op: Operation): string {
  const { bank, out, at, lost, most } = worst.of;
  const between = `between ${charger.part.label} and ${bank.part.label}`;
  const sensed = sensesOutput(charger, op);
  const amps = A(worst.solved.outAmps(charger.part.id));
  if (diodesOf(bank).length === 0) {
    if (sensed) return `${V(lost)} is lost ${between}; sense wires make up for it.`;
    return holds
      ? `${V(lost)} is lost ${between} at ${amps}.`
      : `${V(lost)} is lost ${between} at ${amps}: it slows down before the battery is full; ${V(MOST_V)} is usual.`;
  }
  const set = charger.does.setVolts.sourced.value;
  const all = `${V(out - at)} is lost ${between} at ${amps}${lostWords(worst.solved, bank)}`;
  if (holds && sensed) return `${all}; sense wires make up for it.`;
  if (holds && most > MOST_V) return `${all}; it is set ${V(most - MOST_V)} higher to make up for it.`;
  if (holds) return `${all}.`;
  if (sensed)
    return `${bank.part.label} gets ${V(lost)} less than what the sense wires of ${charger.part.label} hold; ${V(MOST_V)} is usual.`;
  return `${all}: of ${V(set)} that are set ${bank.part.label} gets ${V(set - lost)}; ${V(MOST_V)} is usual. Sense at its posts, set the volts that much higher if every battery behind the charger lies behind such a diode, or split by a relay or transistors.`;
}

/** As many volts more as the diodes lose: as the sheets ask, where every bank lies behind one. */
function higher(op: Operation, charger: Charger, charged: readonly Feed[]): readonly Remedy[] {
  const needed = charged.map((bank) => {
    const asked = bank.part.ability.stores?.absorption ?? null;
    return asked === null ? Number.NaN : asked.sourced.value + forwardVolts(op, diodesOf(bank));
  });
  const volts = Math.floor(Math.min(...needed) * 10 + 1e-6) / 10;
  if (!charged.every((bank) => diodesOf(bank).length > 0) || !(volts > charger.does.setVolts.sourced.value))
    return [];
  return [
    {
      title: `set the absorption of ${charger.part.label} to ${V(volts)}, for what the diodes lose`,
      changes: [{ set: ['parts', charger.part.id, 'voltage', 'absorption'], to: `${volts} V` }],
    },
  ];
}
