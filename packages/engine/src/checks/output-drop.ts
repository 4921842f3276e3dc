/** Drop between a charger's output and the battery it charges: the charger believes the battery is full too soon. */
import type { Check, Judgement, Operation } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import type { Charger } from './support/charger.ts';
import { chargerById, chargers, charges } from './support/charger.ts';
import { settledExample } from './support/examples.ts';
import { thinOutputExample } from './support/examples-energy.ts';
import type { Feed } from './support/feed.ts';
import { feedOf, loopHops, loopSteps, wayBases, wiresOf } from './support/feed.ts';
import { judgement, missing, present, step } from './support/judgement.ts';
import { chargerNeeds, wayNeeds } from './support/needs.ts';
import { thicker } from './support/sizes.ts';
import { A, capital, listed, V, whereWords } from './support/words.ts';
import { whole, worstOf } from './support/worst.ts';

export const outputDrop: Check = {
  id: 'output-drop',
  title: "Little is lost on the charger's output side",
  family: 'drop',
  danger: false,
  statements: TOPICS.chargingVoltage,
  subjects: (op) => chargers(op).map((c) => ({ id: c.part.id, label: c.part.label })),
  judge: (subject, op) => judge(chargerById(op, subject.id), op),
  remedies(subject, op) {
    const feed = bankOf(chargerById(op, subject.id), op);
    return feed === null ? [] : thicker(op, wiresOf(loopHops(feed)));
  },
  failing: thinOutputExample,
  passing: settledExample,
};

/** More than this slows the charge down, V (common practice 0.1 to 0.2 V). */
const MOST_V = 0.2;

/** The battery that the output charges. */
function bankOf(c: Charger, op: Operation): Feed | null {
  const feed = feedOf(op, c.outPlus, c.outMinus);
  return feed?.part.ability.stores === undefined ? null : feed;
}

function judge(charger: Charger, op: Operation): Judgement {
  const label = capital(charger.part.label);
  const bank = bankOf(charger, op);
  if (bank === null)
    return judgement({ holds: true, says: `${label} charges no battery.`, about: [charger.part.id] });
  const needs = [...chargerNeeds(charger), ...wayNeeds(op, loopHops(bank))];
  if (needs.length > 0) {
    const says = `What is lost behind ${charger.part.label} cannot be said: ${listed(needs.map((n) => n.basis.label))} not given.`;
    return missing(says, needs, { severity: 'advice', about: [charger.part.id] });
  }
  const worst = worstOf(whole(op), (s) => {
    if (!charges(s, charger)) return null;
    const [out, at] = [s.volts(charger.outPlus, charger.outMinus), s.volts(bank.plus, bank.minus)];
    return out === null || at === null ? null : { margin: MOST_V - (out - at), of: { out, at } };
  });
  const about = [charger.part.id, ...wiresOf(loopHops(bank))];
  if (worst === null)
    return judgement({ holds: true, says: `${label} gives no output in any condition.`, about });
  const lost = worst.of.out - worst.of.at;
  const sensed =
    charger.does.sensePlus !== charger.does.outPlus &&
    op.wiresAt(`${charger.part.id}.${charger.does.sensePlus}`).length > 0;
  const holds = worst.margin >= -1e-9 || sensed;
  const amps = worst.solved.outAmps(charger.part.id);
  return judgement({
    holds,
    severity: 'advice',
    says: () =>
      sensed
        ? `${V(lost)} is lost between ${charger.part.label} and ${bank.part.label}; sense wires make up for it.`
        : holds
          ? `${V(lost)} is lost between ${charger.part.label} and ${bank.part.label} at ${A(amps)}.`
          : `${V(lost)} is lost between ${charger.part.label} and ${bank.part.label} at ${A(amps)}: it slows down before the battery is full; ${V(MOST_V)} is usual.`,
    value: { value: lost, unit: 'V' },
    limit: { value: MOST_V, unit: 'V' },
    margin: worst.margin,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step('volts at the output', whereWords(worst.solved), worst.of.out, 'V'),
      step(`volts at the posts of ${bank.part.id}`, whereWords(worst.solved), worst.of.at, 'V'),
      ...loopSteps(worst.solved, bank),
      step('lost', `${V(worst.of.out)} − ${V(worst.of.at)}`, lost, 'V'),
    ],
    restsOn: present([charger.does.current, ...wayBases(op, loopHops(bank))]),
    about,
  });
}
