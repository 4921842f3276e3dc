export { rankFacts, type Rejudge } from './rank.ts';
