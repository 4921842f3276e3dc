/** Last resort: trying every combination of pieces and keeping the highest that is consistent. */
import type { PortDevice } from './device.ts';
import type { PortNet } from './ports.ts';
import { activateAll, lineariseAll, stampAll, step, type Settling } from './settle.ts';

const MOST_DEVICES = 12;
/** Combinations beyond which the search gives up. */
const MOST_COMBINATIONS = 50_000;
const MOST_STEPS = 20;
const STEP_END = 1e-8;

type Devices = readonly PortDevice<never>[];

/** Newton on fixed pieces from the no-load voltages; true when it ends and every device is content with its piece. */
function consistent(net: PortNet, devices: Devices, noLoad: Float64Array): boolean {
  stampAll(net, devices);
  if (net.pushed) return false;
  net.v.set(noLoad);
  net.system.unknown.fill(0);
  lineariseAll(net, devices);
  for (let i = 0; i < MOST_STEPS; i += 1) {
    step(net, devices);
    const change = lineariseAll(net, devices);
    if (!(change < Infinity)) return false;
    if (change < STEP_END && !net.flat && !net.system.contradictory) {
      for (const device of devices) {
        if (device.want(net, true) !== 0 || device.want(net, false) !== 0) return false;
      }
      return true;
    }
  }
  return false;
}

function setPieces(devices: Devices, pieces: readonly number[]): void {
  devices.forEach((device, d) => device.setPiece(pieces[d]!));
}

/** Goes to the no-load point, from which every combination starts. */
function start(net: PortNet, devices: Devices): Float64Array {
  stampAll(net, devices);
  step(net, devices);
  activateAll(net, devices);
  return net.v.slice();
}

/** Tries all combinations of pieces; leaves the network at the highest consistent one. */
export function enumerate(net: PortNet, devices: Devices, spent: number): Settling {
  const counts = devices.map((device) => device.pieceCount());
  const total = counts.reduce((product, count) => product * count, 1);
  const noLoad = start(net, devices);
  const first = devices.map((device) => device.piece());
  let best: number[] | null = null;
  let highest = -Infinity;
  if (devices.length <= MOST_DEVICES && total <= MOST_COMBINATIONS) {
    for (let n = 0; n < total; n += 1) {
      let rest = n;
      const pieces = counts.map((count) => {
        const piece = rest % count;
        rest = (rest - piece) / count;
        return piece;
      });
      setPieces(devices, pieces);
      if (!consistent(net, devices, noLoad)) continue;
      const height = devices.reduce((sum, device) => sum + device.height(net), 0);
      if (height > highest) {
        highest = height;
        best = pieces;
      }
    }
  }
  setPieces(devices, best ?? first);
  const settled = consistent(net, devices, noLoad);
  return { settled: settled && best !== null, iterations: spent };
}
