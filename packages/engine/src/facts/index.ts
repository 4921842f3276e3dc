export { rankFacts, type Choice, type Rejudge } from './rank.ts';
