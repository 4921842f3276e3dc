/** A whole vehicle in the words of the format: every section that a first job needs. */
export const VAN = `loomwright: 1
title: Job 114, beekeeper's van
practice: europe                          # or north-america
systems: { vehicle: 12 V, house: 12 V }
vehicle: { supply: alternator, variable-voltage: no, automatic-stop: no, length: 5.1 m }
climate: { coldest: -12 °C, hottest: 38 °C }
stock: { sizes: [16 mm2, 25 mm2, 35 mm2, 50 mm2] }
places:                                   # nose to tail
  bonnet:   { label: Under the bonnet, station: 0.6 m, hottest: 80 °C, engine-space: yes }
  footwell: { label: Passenger footwell, station: 1.5 m }
  bulkhead: { label: Load bulkhead, station: 2.1 m, hottest: 45 °C }
  locker:   { label: Locker ahead of the right rear wheel, station: 3.9 m, hottest: 45 °C, coldest: 5 °C }
routes:
  - { from: bonnet, to: bulkhead, length: 1.5 m, in: free }
  - { from: footwell, to: bulkhead, length: 1.1 m, in: conduit }
  - { from: bulkhead, to: locker, length: 2.1 m, in: conduit }
survey:
  idling:  { posts: { min: 13.6 V, typical: 13.9 V, max: 14.3 V }, output: 95 A, load: 28 A }
  driving: { posts: { min: 13.8 V, typical: 14.2 V, max: 14.4 V } }
parts:
  vehicle-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah, cranking: unknown }
  alternator:      { kind: alternator, at: bonnet, plate: 70/150 A 13.5 V }     # unwired: at the vehicle battery's posts
  feed-fuse:       { kind: fuse, at: bonnet, family: bolt-down, rating: 80 A, interrupts: 6 kA, curve: [{ at: 110 %, opens: never..14400 s }, { at: 200 %, opens: 1..15 s }, { at: 350 %, opens: 0.3..5 s }, { at: 600 %, opens: 0.1..1 s }] }
  isolator:        { kind: isolator, at: bulkhead, rating: 150 A }
  charger:         { kind: dc-charger, at: locker, current: 40 A, enable: signal, low-input: stops, negative: common }
  house-fuse:      { kind: fuse, at: locker, family: class-t, rating: 60 A, interrupts: 20 kA, clearing: 12000 A²s }
  house-battery:   { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 200 Ah, charge-limit: 100 A }
  shunt:           { kind: shunt, at: locker, rating: 300 A }
  body:            { kind: body-section, medium: steel }
  factory-ground:  { kind: chassis-point, at: bonnet, section: body }
  dash-ground:     { kind: chassis-point, at: footwell, section: body }
  run-plug:        { kind: supply-point, at: footwell, live: [idling, driving], dead: others, measured: no, limit: 0.25 A, self-limiting: yes }
  run-relay:       { kind: relay, at: footwell, coil: 85 Ω, contacts: make, rating: 20 A, suppressed: yes }
  tap-fuse:        { kind: fuse, at: bulkhead, family: blade-f, rating: 3 A }
  hold-switch:     { kind: switch, at: locker, operated-by: owner, rating: 3 A, least-current: 1 mA }
wires:
  feed:     { from: vehicle-battery.+, to: feed-fuse.line, size: 50 mm2, insulation: pvc-105, length: 12 cm }
  feed-2:   { from: feed-fuse.load, to: isolator.in, size: auto, insulation: pvc-105, via: [bonnet, bulkhead] }
  feed-3:   { from: isolator.out, to: charger.in+, size: auto, insulation: pvc-105, via: [bulkhead, locker] }
  return:   { from: charger.in-, to: factory-ground.stud, size: auto, insulation: pvc-105, via: [locker, bulkhead, bonnet] }
  earth:    { from: vehicle-battery.-, to: factory-ground.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }
  tap:      { from: isolator.in, to: tap-fuse.line, size: 1 mm2, length: 10 cm }
  tap-2:    { from: tap-fuse.load, to: run-relay.30, size: 1 mm2, via: [bulkhead, footwell] }
  run:      { from: run-plug.out, to: run-relay.86, size: 1 mm2, length: 20 cm }
  run-neg:  { from: run-relay.85, to: dash-ground.stud, size: 1 mm2, length: 30 cm }
  enable:   { from: run-relay.87, to: hold-switch.in, size: 1 mm2, via: [footwell, bulkhead, locker] }
  enable-2: { from: hold-switch.out, to: charger.enable, size: 1 mm2, length: 40 cm }
  out:      { from: charger.out+, to: house-fuse.load, size: 25 mm2, length: 50 cm }
  bank:     { from: house-fuse.line, to: house-battery.+, size: 25 mm2, length: 15 cm }
  out-neg:  { from: charger.out-, to: shunt.system, size: 25 mm2, length: 50 cm }
  bank-neg: { from: shunt.battery, to: house-battery.-, size: 25 mm2, length: 20 cm }
requires:
  - charges only while the engine runs
  - the owner can stop charging
`;

/** A small build for the test kinds, with a comment in every place where one may stand. */
export const SMALL = `# A small build
loomwright: 1 # the format
title: Small
practice: europe
systems: { vehicle: 12 V, house: 12 V }

climate: { coldest: -10 °C, hottest: 38 °C } # of the region
# Where things sit
places:
  nose: { station: 1 m } # in front
  # behind
  tail: { label: In the tail, station: 4 m, hottest: 45 °C }
routes:
  - { from: nose, to: tail, length: 3 m, in: conduit } # the way
parts:
  starter: { kind: battery, at: nose, role: vehicle, capacity: 80 Ah } # old
  # the charger
  charger:
    kind: charger # maker unknown
    at: tail
    current: 30 A
    starts: 13.3 V after 15 s
    efficiency: [[0.5, 0.9], [1, 0.88]]
  body: { kind: body-section, medium: steel }
  ground: { kind: chassis-point, at: nose, section: body }
  bar: { kind: busbar, at: tail }
wires:
  feed: { from: starter.+, to: charger.in+, size: 25 mm2, via: [nose, tail] } # thick
  # beside it
  return: { from: charger.in-, to: ground.stud, size: 4 AWG }
  out: { from: charger.out+, to: bar.1, size: 16 mm2, length: 40 cm }
requires:
  - charges only while the engine runs # always
measured:
  - { from: starter.+, to: charger.in+, resistance: 3..8 mΩ, by: NN }
`;
