/**
 * What is being tried: hands, contacts, troubles, probes, and the time that runs. What follows from them comes from the engine as
 * a course; here it is only played. Nothing of it belongs to the build.
 */
import {
  changeAt,
  CORNER_IDS,
  handsOfState,
  momentAt,
  stateOfHands,
  STATE_IDS,
  turned,
  type CornerId,
  type HandName,
  type Id,
  type LiveCourse,
  type LiveEvent,
  type LiveForecast,
  type LiveMoment,
  type LiveReading,
  type LiveSetting,
  type LiveWindow,
  type StateId,
  type Trouble,
  type VehicleHands,
} from '@loomwright/engine';
import type { LiveVehicle, Tried } from '../../engine/live-desk.ts';
import { Store } from '../../store/store.ts';
import { keyOf, lookDesk } from '../wiring/look-desk.ts';
import type { Probe } from './probes.ts';

export type Rate = 'hold' | 'x1' | 'x60';
export const FASTER: Readonly<Record<Rate, number>> = { hold: 0, x1: 1, x60: 60 };

/** A stretch of time during which nothing changed: it begins here and lasts until the next one. */
export interface Recorded {
  readonly atMs: number;
  readonly reading: LiveReading;
  readonly events: readonly LiveEvent[];
}

export interface TryState {
  readonly tried: Tried | null;
  readonly vehicle: LiveVehicle | null;
  readonly hands: VehicleHands;
  /** Switches and isolators: true = closed. */
  readonly contacts: Readonly<Record<Id, boolean>>;
  /** Breakers that are open, fuses that are pulled. */
  readonly opened: readonly Id[];
  readonly corner: CornerId;
  readonly source: number | null;
  readonly troubles: readonly Trouble[];
  readonly probes: readonly Probe[];
  readonly rate: Rate;
  /** Time that was tried so far, ms. */
  readonly clock: number;
  /** The state that the hands make; null: none, and `none` says why. */
  readonly state: StateId | null;
  readonly none: string;
  /** The state before this one. */
  readonly cameFrom: StateId | null;
  readonly reading: LiveReading | null;
  readonly course: LiveCourse | null;
  /** On the clock, when the course began. */
  readonly courseAt: number;
  /** Oldest first. */
  readonly record: readonly Recorded[];
  readonly forecast: LiveForecast | null;
  readonly window: LiveWindow | null;
  /** Volts at which the source stands by itself; null: it does not feed. */
  readonly usual: number | null;
}

const BEGIN: TryState = {
  tried: null,
  vehicle: null,
  hands: handsOfState('parked'),
  contacts: {},
  opened: [],
  corner: 'typical-quiet',
  source: null,
  troubles: [],
  probes: [],
  rate: 'x1',
  clock: 0,
  state: 'parked',
  none: '',
  cameFrom: null,
  reading: null,
  course: null,
  courseAt: 0,
  record: [],
  forecast: null,
  window: null,
  usual: null,
};

export const tryStore = new Store<TryState>(BEGIN);

const statesOf = (vehicle: LiveVehicle | null): ReadonlySet<StateId> =>
  new Set(vehicle?.states.map((state) => state.id));

/** A build to try: the first one begins parked, a changed one goes on where the last one stood. */
export function takeBuild(tried: Tried, vehicle: LiveVehicle): void {
  const now = tryStore.get();
  const known = new Set(vehicle.contacts.map((contact) => contact.part));
  const closed = Object.fromEntries(
    vehicle.contacts
      .filter((contact) => contact.type === 'switch' || contact.type === 'isolator')
      .map(({ part, closed: usual }) => [part, now.contacts[part] ?? usual]),
  );
  const made = stateOfHands(now.hands, statesOf(vehicle));
  tryStore.set({
    tried,
    vehicle,
    contacts: closed,
    opened: now.opened.filter((part) => known.has(part)),
    state: made.state,
    none: made.state === null ? made.says : '',
  });
  follow();
}

/** The vehicle as it is left: parked, nothing laid on, the strip empty. */
export function beginAgain(): void {
  const { tried, vehicle } = tryStore.get();
  tryStore.set({ ...BEGIN, tried, vehicle });
  if (tried !== null && vehicle !== null) takeBuild(tried, vehicle);
}

export function turn(hand: HandName, to: string): void {
  const { hands, vehicle } = tryStore.get();
  setHands(turned(hands, hand, to, statesOf(vehicle)));
}

export const goTo = (state: StateId): void => setHands(handsOfState(state));

function setHands(hands: VehicleHands): void {
  const now = tryStore.get();
  const made = stateOfHands(withStored(hands, now), statesOf(now.vehicle));
  const other = made.state !== null && made.state !== now.state;
  tryStore.set({
    hands,
    state: made.state,
    none: made.state === null ? made.says : '',
    ...(other && now.state !== null ? { cameFrom: now.state } : {}),
  });
  follow();
}

/** Put away: key off, and every isolator that is open while stored stands open. */
function withStored(
  hands: VehicleHands,
  { vehicle, contacts }: Pick<TryState, 'vehicle' | 'contacts'>,
): VehicleHands {
  const isolators = vehicle?.contacts.filter((contact) => contact.storedOpen) ?? [];
  const stored = isolators.length > 0 && isolators.every(({ part }) => contacts[part] === false);
  return { ...hands, stored: hands.stored || stored };
}

/** A switch or isolator moved, a breaker tripped or reset, a fuse pulled or put back. */
export function setContact(part: Id, closed: boolean): void {
  const now = tryStore.get();
  const contact = now.vehicle?.contacts.find((each) => each.part === part);
  if (contact === undefined) return;
  if (contact.type === 'switch' || contact.type === 'isolator') {
    tryStore.set({ contacts: { ...now.contacts, [part]: closed } });
    setHands({ ...now.hands, stored: false });
    return;
  }
  const others = now.opened.filter((each) => each !== part);
  tryStore.set({ opened: closed ? others : [...others, part] });
  follow();
}

export const isClosed = ({ contacts, opened }: Pick<TryState, 'contacts' | 'opened'>, part: Id): boolean =>
  !opened.includes(part) && (contacts[part] ?? true);

/**
 * Puts the hands as a condition has them (`idling/charge-switch=on/weak/open=feed-fuse/posts=13.600V`), to see it happen. Time
 * begins anew.
 */
export function tryCondition(id: string): void {
  const contacts: Record<Id, boolean> = {};
  const opened: Id[] = [];
  let [state, corner, source]: [StateId, CornerId, number | null] = ['parked', 'typical-quiet', null];
  for (const piece of id.split('/')) {
    const posts = /^posts=([\d.]+)V$/.exec(piece);
    if (isState(piece)) state = piece;
    else if (isCorner(piece)) corner = piece;
    else if (piece.startsWith('open=')) opened.push(piece.slice('open='.length));
    else if (posts !== null) source = Number(posts[1]);
    else
      for (const [, part = '', position] of piece.matchAll(/([^,=]+)=(on|off)/g))
        contacts[part] = position === 'on';
  }
  const { tried, vehicle, probes } = tryStore.get();
  const hands = handsOfState(state);
  tryStore.set({ ...BEGIN, tried, vehicle, probes, contacts, opened, corner, source, state, hands });
  if (tried !== null && vehicle !== null) takeBuild(tried, vehicle);
}

const isState = (text: string): text is StateId => (STATE_IDS as readonly string[]).includes(text);
const isCorner = (text: string): text is CornerId => (CORNER_IDS as readonly string[]).includes(text);

export function setCorner(corner: CornerId): void {
  tryStore.set({ corner });
  follow();
}

export function setSource(source: number | null): void {
  tryStore.set({ source });
  follow();
}

export function setTroubles(troubles: readonly Trouble[]): void {
  tryStore.set({ troubles });
  follow();
}

export const setProbes = (probes: readonly Probe[]): void => tryStore.set({ probes });
export const setRate = (rate: Rate): void => tryStore.set({ rate });

export function settingOf(now: TryState): LiveSetting | null {
  if (now.vehicle === null || now.state === null) return null;
  return {
    ...now.vehicle.resting,
    state: now.state,
    corner: now.corner,
    hands: now.contacts,
    opened: now.opened,
    source: now.source,
    troubles: now.troubles,
  };
}

/** How far ahead a course is asked for, ms. */
const AHEAD = 600_000;
/** Stretches of the strip that are kept. */
const KEPT = 900;

let asked = 0;

/** Asks what follows from the present setting and moment, and plays it from now on. */
export function follow(): void {
  const now = tryStore.get();
  const setting = settingOf(now);
  const { tried, vehicle } = now;
  asked += 1;
  const mine = asked;
  if (setting === null || tried === null || vehicle === null) {
    tryStore.set({ forecast: null, window: null });
    return;
  }
  const moment = momentNow(now, vehicle);
  void lookDesk
    .ask(keyOf(tried), async (desk) => {
      const course = await desk.course(tried, setting, moment, AHEAD);
      if (mine !== asked) return null;
      play(course);
      const forecast = await desk.forecast(tried, setting, moment);
      const usual = await desk.sourceOf(tried, { ...setting, source: null });
      if (mine !== asked) return null;
      tryStore.set({ forecast, usual, ...(forecast.cycling.length === 0 ? { window: null } : {}) });
      const part = forecast.cycling[0]?.part ?? vehicle.converters[0]?.part;
      const window = part === undefined ? null : await desk.liveWindow(tried, setting, moment, part);
      if (mine === asked) tryStore.set({ window });
      return null;
    })
    .catch(() => undefined);
}

const momentNow = (now: TryState, vehicle: LiveVehicle): LiveMoment =>
  now.course === null ? vehicle.start : momentAt(now.course, now.clock - now.courseAt);

function play(course: LiveCourse): void {
  const { clock, record } = tryStore.get();
  const first = course.changes[0];
  if (first === undefined) return;
  const next: Recorded = { atMs: clock, reading: first.reading, events: [] };
  const last = record.at(-1);
  const before = last?.atMs === clock ? record.slice(0, -1) : record;
  tryStore.set({ course, courseAt: clock, reading: first.reading, record: [...before, next].slice(-KEPT) });
}

/** Lets time run by `ms` of the wall's clock. */
export function advance(ms: number): void {
  const now = tryStore.get();
  const { course, courseAt, rate, state } = now;
  const faster = FASTER[rate];
  if (course === null || faster === 0 || state === null) return;
  const end = courseAt + course.untilMs;
  const clock = Math.min(now.clock + ms * faster, end);
  const passed = course.changes.filter(
    (change) => courseAt + change.atMs > now.clock && courseAt + change.atMs <= clock,
  );
  const change = changeAt(course, clock - courseAt);
  tryStore.set({
    clock,
    ...(passed.length === 0
      ? {}
      : {
          reading: change?.reading ?? now.reading,
          record: [
            ...now.record,
            ...passed.map(({ atMs, reading, events }) => ({ atMs: courseAt + atMs, reading, events })),
          ].slice(-KEPT),
        }),
  });
  if (Number.isFinite(end) && end - clock < AHEAD / 2) continueCourse();
}

let continuing = false;

/** The next stretch of the same course, asked for before this one ends. */
function continueCourse(): void {
  const now = tryStore.get();
  const setting = settingOf(now);
  const { tried, course, courseAt } = now;
  if (continuing || setting === null || tried === null || course === null) return;
  continuing = true;
  const mine = asked;
  const moment = momentAt(course, course.untilMs);
  void lookDesk
    .ask(keyOf(tried), async (desk) => await desk.course(tried, setting, moment, AHEAD))
    .then((more) => {
      if (more === null || mine !== asked || tryStore.get().course !== course) return;
      const shifted = more.changes
        .filter((change) => change.atMs > 0)
        .map((change) => ({ ...change, atMs: change.atMs + course.untilMs }));
      tryStore.set({
        course: { changes: [...course.changes, ...shifted], untilMs: more.untilMs + course.untilMs },
        courseAt,
      });
    })
    .catch(() => undefined)
    .finally(() => {
      continuing = false;
    });
}

/** The next change of the course and how far off it is, ms; null: nothing will change. */
export function nextChange({
  course,
  clock,
  courseAt,
}: TryState): { readonly inMs: number; readonly events: readonly LiveEvent[] } | null {
  const next = course?.changes.find((change) => courseAt + change.atMs > clock && change.events.length > 0);
  return next === undefined ? null : { inMs: courseAt + next.atMs - clock, events: next.events };
}
