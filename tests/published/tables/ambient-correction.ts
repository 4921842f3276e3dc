/**
 * Factor of ampacity by ambient temperature, base 30 °C: NEC table 310.15(B)(1) by way of a model code; the 105
 * °C column is computed.
 */
import type { Prov } from '../../../packages/engine/src/reference/sourced.ts';
import type { Table } from '../../../packages/engine/src/reference/table.ts';

export interface AmbientCorrectionRow {
  readonly celsius: number;
  readonly c60: number | null;
  readonly c75: number | null;
  readonly c90: number | null;
  readonly c105Computed: number;
  readonly prov: Prov;
}

export const ambientCorrectionTable: Table<AmbientCorrectionRow> = {
  title: 'Ambient correction',
  source: 'NEC table 310.15(B)(1)',
  rows: [
    { celsius: 10, c60: 1.29, c75: 1.2, c90: 1.15, c105Computed: 1.125, prov: 'seen' },
    { celsius: 15, c60: 1.22, c75: 1.15, c90: 1.12, c105Computed: 1.095, prov: 'seen' },
    { celsius: 20, c60: 1.15, c75: 1.11, c90: 1.08, c105Computed: 1.065, prov: 'seen' },
    { celsius: 25, c60: 1.08, c75: 1.05, c90: 1.04, c105Computed: 1.033, prov: 'seen' },
    { celsius: 30, c60: 1, c75: 1, c90: 1, c105Computed: 1, prov: 'seen' },
    { celsius: 35, c60: 0.91, c75: 0.94, c90: 0.96, c105Computed: 0.966, prov: 'seen' },
    { celsius: 40, c60: 0.82, c75: 0.88, c90: 0.91, c105Computed: 0.931, prov: 'seen' },
    { celsius: 45, c60: 0.71, c75: 0.82, c90: 0.87, c105Computed: 0.894, prov: 'seen' },
    { celsius: 50, c60: 0.58, c75: 0.75, c90: 0.82, c105Computed: 0.856, prov: 'seen' },
    { celsius: 55, c60: 0.41, c75: 0.67, c90: 0.76, c105Computed: 0.816, prov: 'seen' },
    { celsius: 60, c60: null, c75: 0.58, c90: 0.71, c105Computed: 0.775, prov: 'seen' },
    { celsius: 65, c60: null, c75: 0.47, c90: 0.65, c105Computed: 0.73, prov: 'seen' },
    { celsius: 70, c60: null, c75: 0.33, c90: 0.58, c105Computed: 0.683, prov: 'seen' },
    { celsius: 75, c60: null, c75: null, c90: 0.5, c105Computed: 0.632, prov: 'seen' },
    { celsius: 80, c60: null, c75: null, c90: 0.41, c105Computed: 0.577, prov: 'seen' },
    { celsius: 85, c60: null, c75: null, c90: 0.29, c105Computed: 0.516, prov: 'seen' },
  ],
};
