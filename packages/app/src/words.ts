/** The screens' own words, in one place. What a finding says comes from the engine's report. */
export const words = {
  app: 'Loomwright',
  sheets: { first: 'First answer', brief: 'Brief', survey: 'Survey', wiring: 'Wiring', tryIt: 'Try it' },
  empty: {
    title: 'No drawing yet.',
    says: 'Six facts give a first answer, sized; each may be “don’t know”. Or open a build file.',
    begin: 'Begin with six facts',
    open: 'Open a build file',
    kept: 'Builds kept here',
  },
  undo: 'Undo',
  redo: 'Redo',
  find: 'Find',
  close: 'Close',
  judging: 'Judging',
  nothingJudged: 'Not judged yet.',
  failed: {
    title: 'This screen failed.',
    says: 'The build is not touched by that: its text is kept. Keep a copy, then go on.',
    again: 'Show the screen again',
    copy: 'Keep a copy',
    engine: 'The engine failed on this build. Its text is kept; take the last change back, or keep a copy.',
  },
  saved: {
    nothing: ['Nothing open', ''],
  },
  keys: {
    title: 'Keys',
    off: 'Single keys are off',
    on: 'Single keys are on',
  },
  notFound: (sought: string) => `Nothing is named “${sought}” here.`,
} as const;
