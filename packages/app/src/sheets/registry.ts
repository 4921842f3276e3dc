/** The sheets there are. One that does not exist yet is not shown. */
import { lazy } from 'react';
import { words } from '../words.ts';
import { FirstAnswer } from './first-answer/FirstAnswer.tsx';
import type { Sheet } from './sheet.ts';

export const sheets: readonly Sheet[] = [
  { id: 'first', digit: 1, name: words.sheets.first, component: FirstAnswer },
  {
    id: 'survey',
    digit: 2,
    name: words.sheets.survey,
    component: lazy(async () => ({ default: (await import('./survey/Survey.tsx')).Survey })),
  },
  {
    id: 'wiring',
    digit: 3,
    name: words.sheets.wiring,
    component: lazy(async () => ({ default: (await import('./wiring/Wiring.tsx')).Wiring })),
  },
  {
    id: 'try-it',
    digit: 4,
    name: words.sheets.tryIt,
    component: lazy(async () => ({ default: (await import('./try-it/TryIt.tsx')).TryIt })),
  },
];
