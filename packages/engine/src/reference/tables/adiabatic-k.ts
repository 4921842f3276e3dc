/**
 * Factor k of the adiabatic limit I²t = (k S)² for copper, A√s/mm², with the temperatures that it stands for,
 * and both formulas:
 * IEC 60949 (226 sqrt(ln((234.5 + Tf)/(234.5 + Ti)))) and ICEA P-32-382. 105 °C and above: the final
 * temperature is an assumption.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface AdiabaticKRow {
  readonly insulation: string;
  readonly initialC: number;
  readonly finalC: number;
  readonly published: number | null;
  readonly iec60949: number;
  readonly icea: number;
  readonly prov: Prov;
}

export const adiabaticKTable: Table<AdiabaticKRow> = {
  title: 'Adiabatic k',
  source: 'BS 7671 tables 43.1 and 54.2; IEC 60364-4-43, IEC 60364-5-54; IEC 60949; ICEA P-32-382',
  rows: [
    { insulation: 'PVC 70 C, up to 300 mm2', initialC: 70, finalC: 160, published: 115, iec60949: 115, icea: 114.14, prov: 'seen' },
    { insulation: 'PVC 70 C, over 300 mm2', initialC: 70, finalC: 140, published: 103, iec60949: 102.8, icea: 102.03, prov: 'seen' },
    { insulation: 'PVC 90 C, up to 300 mm2', initialC: 90, finalC: 160, published: 100, iec60949: 99.88, icea: 99.13, prov: 'seen' },
    { insulation: 'PVC 90 C, over 300 mm2', initialC: 90, finalC: 140, published: 86, iec60949: 85.55, icea: 84.91, prov: 'seen' },
    { insulation: 'rubber 60 C thermosetting', initialC: 60, finalC: 200, published: 141, iec60949: 140.94, icea: 139.88, prov: 'seen' },
    { insulation: 'XLPE or EPR 90 C thermosetting', initialC: 90, finalC: 250, published: 143, iec60949: 143.08, icea: 141.99, prov: 'seen' },
    { insulation: 'separate protective conductor, PVC', initialC: 30, finalC: 160, published: 143, iec60949: 142.9, icea: 141.83, prov: 'seen' },
    { insulation: 'separate protective conductor, PVC over 300 mm2', initialC: 30, finalC: 140, published: 133, iec60949: 133.27, icea: 132.28, prov: 'seen' },
    { insulation: 'separate protective conductor, thermosetting 90 C', initialC: 30, finalC: 250, published: 176, iec60949: 175.83, icea: 174.5, prov: 'seen' },
    { insulation: 'bare, not touchable, mineral insulated', initialC: 105, finalC: 250, published: 135, iec60949: 134.78, icea: 133.75, prov: 'seen' },
    { insulation: 'silicone rubber', initialC: 180, finalC: 350, published: 132, iec60949: 132.49, icea: 131.47, prov: 'memory' },
    { insulation: 'insulation rated 105 C, final 160 C', initialC: 105, finalC: 160, published: null, iec60949: 87.57, icea: 86.91, prov: 'computed' },
    { insulation: 'insulation rated 105 C, final 200 C', initialC: 105, finalC: 200, published: null, iec60949: 112.26, icea: 111.4, prov: 'computed' },
    { insulation: 'cross-linked 125 C, final 250 C', initialC: 125, finalC: 250, published: null, iec60949: 123.46, icea: 122.51, prov: 'computed' },
    { insulation: 'cross-linked 150 C, final 250 C', initialC: 150, finalC: 250, published: null, iec60949: 108.66, icea: 107.83, prov: 'computed' },
  ],
};
