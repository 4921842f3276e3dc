/** Named rule sets: statements, distances, factors, and the tables that they are judged by. */
import type { Practice, PracticeId } from '../contracts/index.ts';
import { europe } from './europe.ts';
import { northAmerica } from './north-america.ts';

export { europe, northAmerica };
export { TOPICS, type Topic } from './topics.ts';

/** All practices by id. */
export const practices: Readonly<Record<PracticeId, Practice>> = {
  'north-america': northAmerica,
  europe,
};
