/** Newton's method on the ports, with stored pieces. */
import type { PortDevice } from './device.ts';
import type { DeviceSet } from './device-set.ts';
import type { PortNet } from './ports.ts';

/** Step (volts, amperes) below which a point counts as found. */
export const STEP_END = 1e-8;
/** On tangents a step this small is followed by one a few times STEP_END at most, and that by one under rounding (convergence
 * is quadratic): the correcting pass makes the first and so leaves nothing for the second. */
export const NEAR_END = 3e-4;
const MOST_STEPS = 50;
/** Inner moves made by all devices at once before they go one at a time (least index first, which cannot cycle). */
const FREE_MOVES = 14;
/** Outer moves in a row after which tangents are taken anew all the same. */
const OUTER_MOVES = 4;
/**
 * Where tangents are beyond the tip of the curve, no lower point on the same pieces is stable. After this many such steps in a
 * row flat currents grow by a factor, instead of creeping past the tip.
 */
const UNSTABLE_STEPS = 2;
const HURRY = 1.02;
/** First share of the load in a ramp, and how many shares are tried. */
const FIRST_STRIDE = 1 / 16;
const RAMP_TRIES = 60;
const RAMP_STEPS = 50;
const LEAST_STRIDE = 1 / 1024;

export interface Settling {
  readonly settled: boolean;
  readonly iterations: number;
}

/** Stamps all devices for the pieces they stand on. */
export function stampAll(net: PortNet, devices: DeviceSet): void {
  net.beginStamps();
  for (const device of devices.all) device.stamp(net);
  net.endStamps();
}

/** One solution of the ports: falling currents `flat` (as they were) or on their tangents. */
export function step(net: PortNet, devices: DeviceSet, flat: boolean): void {
  net.flat = flat;
  net.beginRows();
  for (const device of devices.rowed) device.rows(net);
  net.solveRows();
}

/** True when no device wants another piece. */
export function content(net: PortNet, devices: DeviceSet): boolean {
  for (const device of devices.moving) if (device.want(net, true) !== 0) return false;
  for (const device of devices.powered) if (device.want(net, false) !== 0) return false;
  return true;
}

export function moveInner(net: PortNet, devices: readonly PortDevice<never>[], oneOnly: boolean): boolean {
  let moved = false;
  for (const device of devices) {
    if (device.want(net, true) === 0) continue;
    device.move();
    moved = true;
    if (oneOnly) break;
  }
  return moved;
}

/** Moves the one device that is farthest beyond its piece. */
function moveOuter(net: PortNet, devices: DeviceSet): boolean {
  let worst: PortDevice<never> | null = null;
  let most = 0;
  for (const device of devices.powered) {
    const violation = device.want(net, false);
    if (violation > most) {
      worst = device;
      most = violation;
    }
  }
  if (worst === null) return false;
  worst.want(net, false);
  worst.move();
  return true;
}

/** Ends the no-load phase. */
export function activateAll(net: PortNet, devices: DeviceSet): boolean {
  let any = false;
  for (const device of devices.powered) any = device.activate(net) || any;
  return any;
}

/** Largest change of the linearisation points. */
export function lineariseAll(net: PortNet, devices: DeviceSet): number {
  let change = 0;
  for (const device of devices.powered) change = Math.max(change, device.linearise(net));
  return change;
}

/**
 * Comes down from the present point to the highest solution.
 *
 * With falling currents kept flat, everything else only rises with voltage and has one solution, which lies above the one
 * looked for; taking the currents anew there and repeating comes down monotonously. From each such point the tangents
 * are tried: where they lead to a stable point on the same pieces they are right and quick, elsewhere they could jump
 * past the highest solution and are not followed.
 */
function advance(
  net: PortNet,
  devices: DeviceSet,
  startLoaded: boolean,
  most: number,
  end: number,
): Settling {
  let loaded = startLoaded;
  net.hurry = 1;
  let dirty = true;
  let tangents = false;
  let inner = 0;
  let outer = 0;
  let unstable = 0;
  for (let iteration = 1; iteration <= most; iteration += 1) {
    if (dirty) stampAll(net, devices);
    dirty = false;
    const reached = tangents;
    step(net, devices, !tangents);
    if (tangents) {
      unstable = net.unstable ? unstable + 1 : 0;
      if (net.unstable || !content(net, devices)) {
        tangents = false;
        continue;
      }
    } else {
      if (moveInner(net, devices.moving, inner > FREE_MOVES)) {
        dirty = true;
        inner += 1;
        continue;
      }
      inner = 0;
      if (devices.powered.length === 0) return settling(net, iteration);
      if (!loaded) {
        loaded = true;
        tangents = true;
        dirty = activateAll(net, devices);
        if (dirty) tangents = false;
        continue;
      }
      if (moveOuter(net, devices)) {
        dirty = true;
        outer += 1;
        if (outer > OUTER_MOVES) lineariseAll(net, devices);
        continue;
      }
      outer = 0;
      tangents = true;
    }
    net.hurry = unstable > UNSTABLE_STEPS ? HURRY : 1;
    if (lineariseAll(net, devices) < (reached ? end : STEP_END)) {
      return settling(net, iteration);
    }
  }
  return { settled: false, iterations: most };
}

const settling = (net: PortNet, iterations: number): Settling => ({
  settled: !net.pushed && !net.contradictory,
  iterations,
});

/** Finds the operating point reached from no load downwards, if it is found within the usual number of steps. */
export function settle(net: PortNet, devices: DeviceSet, end: number): Settling {
  return advance(net, devices, false, MOST_STEPS, end);
}

/** The same by a ramp of all loads from nothing to full, keeping the pieces from one share to the next. */
export function ramp(net: PortNet, devices: DeviceSet, spent: number): Settling {
  let iterations = spent;
  let reached = 0;
  let stride = FIRST_STRIDE;
  let loaded = false;
  for (let tries = 0; tries < RAMP_TRIES && stride >= LEAST_STRIDE; tries += 1) {
    const share = Math.min(1, reached + stride);
    const before = devices.all.map((device) => device.piece());
    for (const device of devices.powered) device.scale(share);
    const result = advance(net, devices, loaded, RAMP_STEPS, STEP_END);
    iterations += result.iterations;
    if (result.settled) {
      loaded = true;
      reached = share;
      if (share === 1) return { settled: true, iterations };
    } else {
      stride /= 2;
      devices.all.forEach((device, d) => device.setPiece(before[d]!));
    }
  }
  return { settled: false, iterations };
}
