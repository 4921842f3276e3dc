export { offerRemedies, type Bench, type Copy, type JudgedRemedy } from './offer.ts';
