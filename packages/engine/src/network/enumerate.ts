/** Last resort: trying every combination of pieces and keeping the highest that is consistent. */
import type { PortDevice } from './device.ts';
import type { DeviceSet } from './device-set.ts';
import type { PortNet } from './ports.ts';
import { activateAll, content, lineariseAll, moveInner, stampAll, step, type Settling } from './settle.ts';

const MOST_DEVICES = 12;
/** Combinations beyond which the search gives up. */
const MOST_COMBINATIONS = 20_000;
const MOST_STEPS = 40;
const STEP_END = 1e-8;

type List = readonly PortDevice<never>[];

/** Devices that are tried on every piece, and those that find theirs by themselves (their currents only rise). */
interface Split {
  readonly devices: DeviceSet;
  readonly tried: List;
  readonly rising: List;
  readonly noLoad: Float64Array;
  readonly noLoadPieces: readonly number[];
}

/** Newton on the tried pieces from no load; true when it ends and every device is content with its piece. */
function consistent(net: PortNet, split: Split, pieces: readonly number[]): boolean {
  const { devices, rising } = split;
  devices.all.forEach((device, d) => device.setPiece(split.noLoadPieces[d]!));
  split.tried.forEach((device, d) => device.setPiece(pieces[d]!));
  stampAll(net, devices);
  net.v.set(split.noLoad);
  net.unknown.fill(0);
  lineariseAll(net, devices);
  for (let i = 0; i < MOST_STEPS; i += 1) {
    step(net, devices, false);
    if (moveInner(net, rising, i > MOST_STEPS / 2)) {
      stampAll(net, devices);
      continue;
    }
    const change = lineariseAll(net, devices);
    if (net.pushed || !(change < Infinity)) return false;
    if (change < STEP_END) {
      if (net.contradictory || net.unstable) return false;
      return content(net, devices);
    }
  }
  return false;
}

/** Goes to the no-load point, from which every combination starts. */
function noLoad(net: PortNet, devices: DeviceSet): Split {
  const rising = devices.all.filter((device) => device.rising());
  net.hurry = 1;
  stampAll(net, devices);
  step(net, devices, true);
  for (let i = 0; i < MOST_STEPS && moveInner(net, rising, i > MOST_STEPS / 2); i += 1) {
    stampAll(net, devices);
    step(net, devices, true);
  }
  activateAll(net, devices);
  return {
    devices,
    tried: devices.all.filter((device) => !device.rising()),
    rising,
    noLoad: net.v.slice(),
    noLoadPieces: devices.all.map((device) => device.piece()),
  };
}

/** The n-th combination of pieces. */
function combination(n: number, counts: readonly number[]): number[] {
  let rest = n;
  return counts.map((count) => {
    const piece = rest % count;
    rest = (rest - piece) / count;
    return piece;
  });
}

/**
 * Tries all combinations of the pieces of devices whose current can fall; leaves the network at the consistent one with the
 * highest voltages.
 */
export function enumerate(net: PortNet, devices: DeviceSet, spent: number): Settling {
  const split = noLoad(net, devices);
  const counts = split.tried.map((device) => device.pieceCount());
  const total = counts.reduce((product, count) => product * count, 1);
  let best = -1;
  let highest = -Infinity;
  if (split.tried.length <= MOST_DEVICES && total <= MOST_COMBINATIONS) {
    for (let n = 0; n < total; n += 1) {
      if (!consistent(net, split, combination(n, counts))) continue;
      const height = split.tried.reduce((sum, device) => sum + device.height(net), 0);
      if (height > highest) {
        highest = height;
        best = n;
      }
    }
  }
  const settled = consistent(net, split, combination(Math.max(best, 0), counts));
  return { settled: settled && best >= 0, iterations: spent };
}
