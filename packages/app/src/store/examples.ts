/** Builds to look at that come with the app. */

export interface Example {
  /** Its file's name without the ending. */
  readonly name: string;
  readonly title: string;
  /** What there is to see in it. */
  readonly shows: string;
}

/** The first is the demo. */
export const EXAMPLES: readonly Example[] = [
  {
    name: 'beekeepers-van',
    title: 'Job 114, beekeeper’s van',
    shows:
      'Nothing wrong in it: a charger of 40 A, its run signal from a plug that is live while the engine turns.',
  },
  {
    name: 'beekeepers-van-hunts',
    title: 'Job 114, beekeeper’s van, weak at idle',
    shows: 'The same with a weaker supply: at hot idle the charger hunts.',
  },
  {
    name: 'faulty-camper',
    title: 'Job 99, the camper with everything wrong',
    shows: 'Faults of the trade, each found and explained.',
  },
  {
    name: 'delivery-van',
    title: 'Job 121, delivery van',
    shows: 'Stop-start and an alternator whose voltage varies.',
  },
  {
    name: 'piano-tuners-electric-van',
    title: 'Job 127, piano tuner’s electric van',
    shows: 'A converter in the alternator’s place; no idling, no driving, only ready.',
  },
  {
    name: 'river-survey-van',
    title: 'Job 118, river survey van',
    shows: 'North American sizes, a breaker in the step-well, a busbar of loads.',
  },
];

/** In an address, an example stands where a build's id would. */
const PREFIX = 'example-';

export const addressOf = (name: string): string => `${PREFIX}${name}`;

/** The example that an address names; null: it names none. */
export function exampleAt(id: string | null): Example | null {
  return EXAMPLES.find(({ name }) => addressOf(name) === id) ?? null;
}
