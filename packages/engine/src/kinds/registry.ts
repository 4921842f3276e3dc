/** All kinds of parts that documents may use. One line each. */
import type { FieldTable, Kind, Registry } from '../contracts/index.ts';
import { NOMINAL, makeValues } from '../devices/values.ts';
import { alternator } from './alternator.ts';
import { baseLoad } from './base-load.ts';
import { battery } from './battery.ts';
import { batteryProtection } from './battery-protection.ts';
import { bodySection } from './body-section.ts';
import { breaker } from './breaker.ts';
import { busbar } from './busbar.ts';
import { chassisPoint } from './chassis-point.ts';
import { common } from './common.ts';
import { dcCharger } from './dc-charger.ts';
import { diode } from './diode.ts';
import { fuse } from './fuse.ts';
import { handSwitch } from './switch.ts';
import { isolator } from './isolator.ts';
import { joint } from './joint.ts';
import { load } from './load.ts';
import { relay } from './relay.ts';
import { shunt } from './shunt.ts';
import { starter } from './starter.ts';
import { strap } from './strap.ts';
import { stud } from './stud.ts';
import { supplyPoint } from './supply-point.ts';
import { vehicleConverter } from './vehicle-converter.ts';
import { vehicleSensor } from './vehicle-sensor.ts';
import { fieldContext } from './context.ts';

export const kinds = [
  battery,
  alternator,
  vehicleConverter,
  starter,
  baseLoad,
  vehicleSensor,
  supplyPoint,
  relay,
  handSwitch,
  isolator,
  batteryProtection,
  breaker,
  fuse,
  dcCharger,
  diode,
  busbar,
  stud,
  joint,
  chassisPoint,
  bodySection,
  strap,
  shunt,
  load,
] as const satisfies readonly Kind[];

/** The registry that the document room reads with. */
export function makeRegistry(): Registry {
  const byName: ReadonlyMap<string, Kind> = new Map(kinds.map((kind) => [kind.name, kind]));
  const values = makeValues(NOMINAL);
  const tables = new Map<Kind | undefined, FieldTable>();
  const tableOf = (kind: Kind | undefined): FieldTable => {
    const table = tables.get(kind) ?? { ...common, ...kind?.fields };
    tables.set(kind, table);
    return table;
  };
  return {
    kinds: byName,
    common,
    readerFor: (part, build) => {
      const kind = byName.get(part.kind);
      return values.reader(
        `parts.${part.id}`,
        part.id,
        tableOf(kind),
        part.fields,
        // While a document is read its wires are not there yet.
        fieldContext(part, { systems: build.systems }, byName),
      );
    },
  };
}
