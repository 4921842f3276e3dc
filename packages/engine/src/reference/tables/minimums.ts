/**
 * Minimum sizes, distances and drops of rules for craft, caravans and aircraft, as published; values stay text
 * where they are not a
 * single number.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface MinimumRow {
  readonly standard: string;
  readonly item: string;
  readonly value: string;
  readonly unit: string;
  readonly prov: Prov;
}

export const minimumsTable: Table<MinimumRow> = {
  title: 'Minimum sizes, distances and drops',
  source: '33 CFR 183, 46 CFR 183, ISO 10133:2012, ISO 13590:2018, IEC 60364-7-721, EN 1648, AS/NZS 3001.2, ABYC E-11, FAA AC 43.13-1B',
  rows: [
    { standard: '33 CFR 183.425(e)', item: 'smallest single conductor', value: '16', unit: 'AWG', prov: 'seen' },
    { standard: '33 CFR 183.425(d)', item: 'smallest conductor in a multiconductor sheath', value: '18', unit: 'AWG', prov: 'seen' },
    { standard: '33 CFR 183.425(f)', item: '18 AWG may leave its sheath by at most', value: '762', unit: 'mm', prov: 'seen' },
    { standard: 'ISO 10133:2012 7.7', item: 'smallest single conductor longer than 200 mm', value: '1', unit: 'mm2', prov: 'seen' },
    { standard: 'ISO 10133:2012 7.7', item: 'smallest conductor in a sheath', value: '0.75', unit: 'mm2', prov: 'seen' },
    { standard: 'ISO 10133:2012 7.3', item: 'support interval of conductors, max', value: '450', unit: 'mm', prov: 'seen' },
    { standard: 'ISO 10133:2012 7.4', item: 'support interval of battery conductors to the isolator, max', value: '300', unit: 'mm', prov: 'seen' },
    { standard: 'ISO 10133:2012 8', item: 'overcurrent device from the source, max', value: '200', unit: 'mm', prov: 'memory' },
    { standard: 'ISO 13590:2018', item: 'overcurrent device from the origin, max', value: '180', unit: 'mm', prov: 'seen' },
    { standard: 'ISO 13590:2018', item: 'as above when sheathed, max', value: '500', unit: 'mm', prov: 'seen' },
    { standard: 'ISO 13590:2018', item: 'as above for a conductor that starts at a battery, max', value: '900', unit: 'mm', prov: 'seen' },
    { standard: 'ISO 13590:2018', item: 'device rating against conductor current, max', value: '150', unit: 'percent', prov: 'seen' },
    { standard: '46 CFR 183.340', item: 'smallest power or lighting conductor', value: '14', unit: 'AWG', prov: 'seen' },
    { standard: '46 CFR 183.340', item: 'smallest control or indicator conductor', value: '22', unit: 'AWG', prov: 'seen' },
    { standard: '46 CFR 183.380', item: 'device rating against conductor current, max', value: '150', unit: 'percent', prov: 'seen' },
    { standard: '46 CFR 111.15-25', item: 'overload device in each battery conductor', value: 'required', unit: '', prov: 'seen' },
    { standard: '33 CFR 183.420', item: 'battery movement under 90 lb or twice its weight, max', value: '25.4', unit: 'mm', prov: 'seen' },
    { standard: '33 CFR 183.420', item: 'metal fuel parts to shield within this distance above the battery top', value: '305', unit: 'mm', prov: 'seen' },
    { standard: 'IEC 60364-7-721 / BS 7671 section 721', item: 'smallest conductor of the mains installation', value: '1.5', unit: 'mm2', prov: 'memory' },
    { standard: 'EN 1648-1 and EN 1648-2', item: 'scope', value: '12 V DC ELV of caravans / motor caravans', unit: '', prov: 'seen' },
    { standard: 'AS/NZS 3001.2:2022', item: 'published 18 November 2022, in force', value: '18 November 2023', unit: '', prov: 'seen' },
    { standard: 'marine practice (ABYC E-11)', item: 'voltage drop, panel feeds, blowers, navigation lights, electronics, max', value: '3', unit: 'percent', prov: 'seen' },
    { standard: 'marine practice (ABYC E-11)', item: 'voltage drop, other circuits, max', value: '10', unit: 'percent', prov: 'seen' },
    { standard: 'FAA AC 43.13-1B', item: 'voltage drop from battery or generator to bus, max', value: '2', unit: 'percent', prov: 'seen' },
    { standard: 'FAA AC 43.13-1B table 11-6', item: 'voltage drop in a 14 V load circuit, continuous, max', value: '0.5', unit: 'V', prov: 'memory' },
    { standard: 'FAA AC 43.13-1B table 11-6', item: 'voltage drop in a 14 V load circuit, intermittent, max', value: '1', unit: 'V', prov: 'memory' },
    { standard: 'FAA AC 43.13-1B table 11-6', item: 'voltage drop in a 28 V load circuit, continuous, max', value: '1', unit: 'V', prov: 'memory' },
    { standard: 'FAA AC 43.13-1B table 11-6', item: 'voltage drop in a 28 V load circuit, intermittent, max', value: '2', unit: 'V', prov: 'memory' },
  ],
};
