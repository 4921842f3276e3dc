/** The screens' own words, in one place. What a finding says comes from the engine's report. */
import { plural } from '@loomwright/engine';

const fates = ({
  added,
  extended,
  present,
  keptBeside,
}: Readonly<Record<'added' | 'extended' | 'present' | 'keptBeside', number>>): string =>
  [
    [added, 'added'],
    [extended, 'with newer revisions'],
    [keptBeside, 'kept beside yours'],
    [present, 'here already'],
  ]
    .filter(([count]) => count !== 0)
    .map(([count, how]) => `${count} ${how}`)
    .join(', ') || 'none';

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
  beside: {
    first: 'Worth getting next, and what it rests on',
    survey: 'Why a supply point may serve',
    'try-it': 'What happens, readings and strip',
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
  first: {
    lead: 'Six facts. Type over any of them; “don’t know” will do.',
    drawnLead: 'This build was drawn. Its facts are read from the drawing, and change there.',
    goOn: 'Go on to the drawing',
    keeps: 'Keeps all of this, as a build.',
    workingOut: 'Working it out',
    trying: 'being tried',
    thatIsAll: 'That is all',
    asDrawn:
      'This build was drawn, not begun with six facts. Change it on Survey or in the drawing; the answer follows.',
    toDrawing: 'To the drawing',
    noWorking: 'No finding stands behind this row.',
  },
  worth: {
    title: 'Worth getting next',
    ranking: 'Looking which facts could change a verdict',
    none: 'No fact could change a verdict now.',
  },
  rules: 'The rule, and what was assumed',
  restsOn: (count: number) => `Rests on ${count} ${count === 1 ? 'assumption' : 'assumptions'}`,
  showAll: (count: number) => `Show all ${count}`,
  bandsNote: 'Right column: the band. A verdict is tried with all of them at their bad ends together.',
  keep: 'Keep',
  who: 'Who are you?',
  give: {
    label: (unit: string) => (unit === '' ? 'As it is' : `As read, with its unit (${unit})`),
    edition: 'Edition that was looked at',
    confirm: 'I confirm it',
    whoNeeded: 'A confirmation needs a name; it is printed.',
    noPart: (how: string) => `The build has no such part yet; add it on Wiring, then give the value. ${how}.`,
  },
  saved: {
    browserFull: (why: string) => `This browser takes no more: ${why}`,
    spokenNotSaved: 'Not saved. Keep a copy.',
    meets: 'Another window saved first, and one change meets theirs.',
    came: (revision: number, who: string, at: string) =>
      `Revision ${revision} came${who === '' ? ' from another window' : ` from ${who}`} at ${at}.`,
    settled: (choice: 'yours' | 'theirs', revision: number) =>
      choice === 'yours' ? `Yours, on top of revision ${revision}.` : `Revision ${revision} as it came.`,
    elsewhere: 'Changed elsewhere.',
    changes: (count: number) => `${count} ${count === 1 ? 'change' : 'changes'}`,
  },
  dontKnow: 'don’t know',
  survey: {
    views: 'What of the survey',
    voltages: 'Voltages and supply points',
    voltagesShort: 'Voltages',
    places: 'Places and ways',
    title: 'What the vehicle showed',
    lead: 'One reading per vehicle state, minus probe on the vehicle battery’s negative post.',
    readings: 'Typical reading',
    asSignal: 'As run signal',
    battery: 'Vehicle battery',
    postToPost: 'post to post',
    postsWhile: (state: string) => `Posts, ${state}`,
    postsToRead: (states: readonly string[]) => `${states.length} to read: ${states.join(', ')}.`,
    postsRead: 'Read in every running state',
    missing: 'Open, missing',
    addPoint: 'Add a supply point',
    noPoints: 'No candidate yet. Add a terminal of the vehicle that may be live only while the engine runs.',
    pointName: 'Its name, as marked: D+, F12, 15',
    pointPlace: 'Where it is',
    pointLimit: 'What may be drawn, such as 0.25 A',
    add: 'Add',
    live: 'live',
    dead: 'dead',
    read: 'read',
    notRead: 'not read',
    runs: 'runs',
    stands: '',
    how: 'Press a cell to turn it: read, live, dead. Press a state for all that was read in it.',
    limit: (amps: string) => `limit ${amps}`,
    noLimit: 'limit not known',
    wired: 'wired as run signal',
    why: (id: string, serves: string) =>
      serves === 'may-not'
        ? `Why ${id} may not serve`
        : serves === 'not-read'
          ? `What ${id} still needs`
          : `Why ${id} may serve`,
    holds: { met: 'met', 'may-not': 'not so', open: 'open', advice: 'advice' },
    post: 'The source while it runs, and where it would hunt',
    noHunt: 'With typical values it would hunt nowhere near.',
    hunt: 'Where the source stands in the box, charging starts and stops without end.',
    toRead: (count: number) =>
      count === 0
        ? 'All that decides was read.'
        : `Still to read, ${count} ${count === 1 ? 'value' : 'values'}`,
    trying: 'Trying it in the place of the run signal',
    inItsPlace: 'If the run signal were taken here',
    restDead: 'Dead in all the rest',
    restDeadSays: (id: string) => `${id}: dead in all the rest.`,
    measured: 'Was read here under load',
    notMeasured: 'Read here under load: take back',
    measuredSays: (id: string, is: boolean) => `${id}: ${is ? 'read here under load' : 'not read here yet'}.`,
    placesTitle: 'Places and ways',
    placesLead: 'Nose to tail. Lengths of wires come from the ways; heat comes from the places.',
    placesWhy: 'What these are for',
    placesWhySays:
      'A wire that names its places gets its length from the ways between them, and its air from the hottest of them. Where a place is in the vehicle orders the drawing; nothing is computed from it.',
    ways: 'Ways between places',
    newPlace: 'A further place',
    wayFrom: 'A further way, from',
    wayTo: 'to',
    wayLength: 'Length',
    wayNew: (from: string, to: string) => `A way from ${from} to ${to}.`,
    wayGone: 'The way is taken away.',
    takeAway: 'Take away',
    sayWhat: 'say what',
    more: 'more',
    fewer: 'fewer',
  },
  photos: {
    view: 'Photos',
    title: 'Photos',
    notKept:
      'Photos are kept on the disk beside the build. Give a first fact or change something, so that the build is kept; then add them here.',
    file: 'A photo: JPEG, PNG or WebP, at most 12 MB',
    shows: 'It shows',
    caption: 'Caption',
    of: ({ on }: { readonly on: { readonly place: string } | { readonly part: string } }) =>
      'place' in on ? on.place : on.part,
  },
  saving: {
    why: 'What this revision is for',
    named: 'Keep as a named revision',
    again: 'Try again now',
    revisions: 'Revisions',
    takeBack: 'Take this one',
    backTo: (number: number) => `Back to revision ${number}.`,
    cameFrom: (number: number, by: string, at: string) => `Revision ${number} came from ${by} at ${at}.`,
    meet: (yours: number, meetings: number) =>
      meetings === 0
        ? 'Your version is kept. The two cannot be laid together value by value:'
        : `Your ${yours === 1 ? 'change is' : `${yours} changes are`} kept. ${meetings === 1 ? 'One meets' : `${meetings} meet`} theirs on the same value:`,
    wholeTheirs: 'Their version',
    yours: 'Save with yours',
    theirs: 'Take theirs',
    nothingLost: 'Nothing is lost either way: the other stays one Undo or one revision away.',
  },
  builds: {
    fresh: 'New build',
    find: 'Find a build',
    none: 'No builds are kept here yet.',
    unreachable:
      'The store of this machine does not answer. What you change is kept in this browser and goes by itself.',
    onlyHere: 'kept in this browser only',
    here: 'on the desk',
    copy: 'Copy',
    away: 'Put away',
    awayNotNow: 'It is on the desk: open another build first.',
    isAway: (title: string) => `${title} is put away, with all its revisions.`,
    isBack: (title: string) => `${title} is back on the list.`,
    back: 'Bring back',
    putAway: (count: number) => `${plural(count, 'build', 'builds')} put away`,
  },
  examples: {
    title: 'Builds to look at',
    says: 'Invented vehicles. One is kept as yours as soon as you change it.',
    demo: 'Look at the demo build',
  },
  everything: {
    title: 'Everything',
    says: 'All builds with their revisions, the shelf and the photos, as one file. Taking one in only adds; it changes nothing that is here.',
    out: 'Keep as one archive',
    in: 'Take in an archive',
    taking: 'Being proved and taken in.',
    taken: ({
      builds,
      items,
      photos,
    }: {
      readonly builds: Readonly<Record<'added' | 'extended' | 'present' | 'keptBeside', number>>;
      readonly items: Readonly<Record<'added' | 'extended' | 'present' | 'keptBeside', number>>;
      readonly photos: { readonly added: number; readonly present: number };
    }) =>
      `Taken in. Builds: ${fates(builds)}. Shelf: ${fates(items)}. Photos: ${photos.added} added, ${photos.present} here already.`,
  },
  shelf: {
    title: 'Shelf',
    empty: 'Nothing on the shelf yet. What is put there serves every later build.',
    kinds: {
      part: 'own part',
      vehicle: 'surveyed vehicle',
      stock: 'stock',
      table: 'confirmed table',
    } as Readonly<Record<string, string>>,
    use: 'Use here',
    off: 'Take off',
    put: 'Put on the shelf, from this build',
    putKind: {
      part: 'The part',
      vehicle: 'This vehicle as surveyed',
      stock: 'These sizes',
      table: 'Confirmed',
    },
    stockName: 'Sizes in stock',
    taken: (name: string) => `Taken from the shelf: ${name}.`,
  },
  badFile: {
    title: (name: string) => `${name} was not opened.`,
    at: (line: number, column: number) => `line ${line}, column ${column}`,
    more: (count: number) => `and ${count} more.`,
    nothing: 'Nothing was changed. The build you had is still open.',
  },
  build: {
    title: 'Title',
    practice: 'Judged by the practice of',
    volts: 'Vehicle and house',
    device: 'This device',
    units: 'Sizes and lengths',
    practiceIs: (practice: string) => `Practice: ${practice}.`,
    voltsAre: (volts: string) => `${volts} V.`,
    unitsAre: (units: string) =>
      units === 'imperial' ? 'Sizes in AWG, lengths in feet.' : 'Sizes in mm², lengths in metres.',
    titleIs: (title: string) => `Title: ${title}.`,
  },
  keys: {
    title: 'Keys',
    off: 'Single keys are off',
    on: 'Single keys are on',
  },
  notFound: (sought: string) => `Nothing is named “${sought}” here.`,
} as const;
