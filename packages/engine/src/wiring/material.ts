/** What a wire is made of: insulation, its limits, copper and its resistance. */
import type { Basis, Insulation, LaidWire, Sourced, Wire } from '../contracts/index.ts';
import { adiabaticKAluminium } from '../devices/heat.ts';
import type { Values } from '../devices/values.ts';
import type { Size } from '../quantity/size.ts';
import {
  copperCladFactor,
  insulation as insulationOf,
  isFigure,
  resistancePerMetre20,
  STRAND_OF,
  weakest,
  type Strand,
} from '../reference/index.ts';

type Material = Pick<
  LaidWire,
  'insulation' | 'insulationAssumed' | 'rating' | 'ohms20' | 'copper' | 'k' | 'finalTemperature'
>;

/** The insulation that counts where none is given: the least that is sold. */
const ASSUMED_INSULATION: Insulation = 'pvc-70';

const TABLE_OF: Readonly<Record<Strand, string>> = {
  'iec-5': 'table:resistance/iec-60228',
  'iso-6722': 'table:resistance/iso-6722',
  awg: 'table:resistance/awg',
  sae: 'table:resistance/sae',
};

/** Insulation, limits and resistance of a wire of this length (null: not known). */
export function material(values: Values, wire: Wire, size: Size | undefined, length: Basis | null): Material {
  const given = wire.insulation === 'unknown' ? undefined : wire.insulation;
  const name = given ?? ASSUMED_INSULATION;
  const known = insulationOf(name);
  const copper = wire.material === 'copper';
  return {
    insulation: name,
    insulationAssumed: given === undefined,
    rating: known.ratedC,
    ohms20: ohms(values, wire, size, length),
    copper,
    k: limitOf(values, name, copper),
    finalTemperature: known.finalC.value,
  };
}

function limitOf(values: Values, name: Insulation, copper: boolean): Basis {
  const known = insulationOf(name);
  const path = copper ? `table:adiabatic-k/${name}` : `table:adiabatic-k/${name}/cca`;
  const k = copper ? known.k : cladLimit(known.ratedC, known.finalC.value);
  return values.figure(path, k, {
    label: `k of ${name}${copper ? '' : ' on copper-clad aluminium'}`,
    how: 'read the standard, confirm it once',
    effort: 'confirm',
  });
}

/** Copper-clad aluminium withstands no less than aluminium; nothing better is published. */
function cladLimit(rated: number, final: number): Sourced {
  return {
    value: Math.floor(adiabaticKAluminium(rated, final) * 10) / 10,
    unit: 'A√s/mm²',
    prov: 'memory',
    source: 'IEC 60949 formula for aluminium, taken for copper-clad aluminium',
    range: 'up to 5 s, from the rated temperature',
  };
}

/** Resistance at 20 °C without joints, Ω; null where size or length is not known. */
function ohms(values: Values, wire: Wire, size: Size | undefined, length: Basis | null): Basis | null {
  if (size === undefined || length === null) return null;
  const strand = wire.strand ?? STRAND_OF[size.family];
  const found = resistancePerMetre20(size, strand);
  if (!isFigure(found)) return null;
  const perMetre = wire.material === 'copper' ? found : clad(found);
  const basis = values.figure(TABLE_OF[strand], perMetre, {
    label: `resistance of ${wire.id} at 20 °C`,
    how: 'read the standard, confirm it once',
    effort: 'confirm',
  });
  const { band: _band, ...sourced } = basis.sourced;
  return {
    ...basis,
    sourced: { ...sourced, value: basis.sourced.value * length.sourced.value, unit: 'Ω' },
  };
}

function clad(copper: Sourced): Sourced {
  return {
    ...copper,
    value: copper.value * copperCladFactor.value,
    prov: weakest(copper.prov, copperCladFactor.prov),
    source: `${copper.source}; x ${copperCladFactor.value}: ${copperCladFactor.source}`,
  };
}
