/** Small vehicles for the checks on relays. */
import { van } from './examples.ts';

const relayed = (title: string, from: string): string =>
  van(title, {
    parts: {
      helper: '{ kind: relay, at: bonnet, coil: 85 Ω, contacts: make, rating: 20 A, suppressed: yes }',
      lamp: '{ kind: load, at: bonnet, system: vehicle, resistance: 2 Ω, on: [idling, driving] }',
    },
    wires: {
      'coil-plus': '{ from: run-signal.out, to: helper.86, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
      'coil-minus':
        '{ from: helper.85, to: vehicle-battery.-, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
      'helper-in': `{ from: ${from}, to: helper.30, size: 1 mm2, insulation: pvc-105, length: 20 cm }`,
      'lamp-plus': '{ from: helper.87, to: lamp.+, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
      'lamp-minus':
        '{ from: lamp.-, to: vehicle-battery.-, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
    },
  });

export const chatteringExample = relayed('A relay that loads the signal which holds it', 'run-signal.out');
export const steadyRelayExample = relayed('A relay that feeds its load from the battery', 'feed-fuse.load');
