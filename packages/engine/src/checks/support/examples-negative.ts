/** Small vehicles for the checks on the negative network and on what stays live. */
import { van } from './examples.ts';

/** The house negative and the charger's input negative both on one point of the body. */
const BODY = {
  body: '{ kind: body-section, medium: steel }',
  'front-point': '{ kind: chassis-point, at: bonnet, section: body }',
  'rear-point': '{ kind: chassis-point, at: locker, section: body }',
};

export const bypassedShuntExample = van('A second lug on the house battery past the shunt', {
  survey: { driving: '{ posts: { min: 13.8 V, typical: 14.2 V, max: 14.4 V }, lasts: 3 h }' },
  parts: BODY,
  wires: {
    'past-shunt':
      '{ from: house-battery.-, to: rear-point.stud, size: 25 mm2, insulation: pvc-105, length: 30 cm }',
    bond: '{ from: shunt.system, to: rear-point.stud, size: 25 mm2, insulation: pvc-105, length: 80 cm }',
    return: '{ from: charger.in-, to: vehicle-battery.-, size: 35 mm2, insulation: pvc-105, length: 4 m }',
  },
});

const SENSOR = '{ kind: vehicle-sensor, at: bonnet }';

export const passedSensorExample = van('A return on the chassis side of the sensor', {
  parts: { sensor: SENSOR },
  wires: {
    'sensor-post':
      '{ from: vehicle-battery.-, to: sensor.post, size: 35 mm2, insulation: pvc-105, length: 10 cm }',
    return: '{ from: charger.in-, to: sensor.chassis, size: 35 mm2, insulation: pvc-105, length: 4 m }',
  },
});

export const bypassedSensorExample = van('A return on the battery post past the sensor', {
  parts: { sensor: SENSOR },
  wires: {
    'sensor-post':
      '{ from: vehicle-battery.-, to: sensor.post, size: 35 mm2, insulation: pvc-105, length: 10 cm }',
  },
});

export const compositeExample = van('A charger returned to a composite box', {
  parts: {
    ...BODY,
    box: '{ kind: body-section, medium: composite }',
    'rear-point': '{ kind: chassis-point, at: locker, section: box }',
  },
  wires: {
    return: '{ from: charger.in-, to: rear-point.stud, size: 35 mm2, insulation: pvc-105, length: 50 cm }',
    earth:
      '{ from: vehicle-battery.-, to: front-point.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }',
  },
});

export const liveBeyondExample = van('A relay that joins both batteries', {
  parts: {
    joiner: '{ kind: relay, at: locker, coil: 85 Ω, contacts: make, rating: 70 A, suppressed: yes }',
  },
  wires: {
    'join-feed': '{ from: feed-fuse.load, to: joiner.30, size: 16 mm2, insulation: pvc-105, length: 4 m }',
    'join-house':
      '{ from: joiner.87, to: house-fuse.load, size: 16 mm2, insulation: pvc-105, length: 50 cm }',
    'join-coil': '{ from: run-signal.out, to: joiner.86, size: 1 mm2, insulation: pvc-105, length: 4 m }',
    'join-coil-return':
      '{ from: joiner.85, to: charger.in-, size: 1 mm2, insulation: pvc-105, length: 40 cm }',
  },
});

/** Signal mode: the charger is off and the bank far away, so that nothing feeds what an opened fuse leaves. */
export const deadBeyondExample = van('A feed that is dead once its fuse is out', {
  without: ['house-fuse', 'bank'],
  wires: {
    out: '{ from: charger.out+, to: house-battery.+, size: 16 mm2, insulation: pvc-105, length: 50 cm }',
  },
});

const EARTHED = {
  ...BODY,
  earth: '{ kind: isolator, at: bonnet, rating: 200 A, cranking: 600 A }',
};

const EARTH_WIRES = {
  'battery-earth':
    '{ from: vehicle-battery.-, to: earth.in, size: 35 mm2, insulation: pvc-105, length: 20 cm }',
  'earth-body': '{ from: earth.out, to: front-point.stud, size: 35 mm2, insulation: pvc-105, length: 20 cm }',
};

export const partedExample = van('A charger on the chassis side of the negative isolator', {
  parts: EARTHED,
  wires: {
    ...EARTH_WIRES,
    return: '{ from: charger.in-, to: front-point.stud, size: 35 mm2, insulation: pvc-105, length: 4 m }',
  },
});

export const bypassedIsolatorExample = van('A charger on the battery post, its house on the body', {
  parts: EARTHED,
  wires: {
    ...EARTH_WIRES,
    bond: '{ from: shunt.system, to: rear-point.stud, size: 16 mm2, insulation: pvc-105, length: 30 cm }',
  },
});

export const borrowedNegativeExample = van('A large house load that returns by the vehicle', {
  parts: {
    ...BODY,
    heater: '{ kind: load, at: locker, power: 1200 W, on: always }',
  },
  wires: {
    'heater-plus': '{ from: house-battery.+, to: heater.+, size: 35 mm2, insulation: pvc-105, length: 1 m }',
    'heater-minus': '{ from: heater.-, to: rear-point.stud, size: 35 mm2, insulation: pvc-105, length: 1 m }',
    earth:
      '{ from: vehicle-battery.-, to: front-point.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }',
  },
});
