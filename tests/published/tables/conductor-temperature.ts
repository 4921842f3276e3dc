/**
 * Factor that refers a resistance reading to 20 °C: annex of IEC 60228, as reprinted. The printed column uses
 * 0.004 per K.
 */
import type { Prov } from '../../../packages/engine/src/reference/sourced.ts';
import type { Table } from '../../../packages/engine/src/reference/table.ts';

export interface ConductorTemperatureRow {
  readonly celsius: number;
  readonly published: number;
  readonly alpha004: number;
  readonly iacs: number;
  readonly prov: Prov;
}

export const conductorTemperatureTable: Table<ConductorTemperatureRow> = {
  title: 'Conductor temperature correction',
  source: 'IEC 60228 annex, as reprinted',
  rows: [
    { celsius: 5, published: 1.064, alpha004: 1.0638, iacs: 1.0626, prov: 'seen' },
    { celsius: 10, published: 1.042, alpha004: 1.0417, iacs: 1.0409, prov: 'seen' },
    { celsius: 15, published: 1.02, alpha004: 1.0204, iacs: 1.02, prov: 'seen' },
    { celsius: 20, published: 1, alpha004: 1, iacs: 1, prov: 'seen' },
    { celsius: 25, published: 0.98, alpha004: 0.9804, iacs: 0.9807, prov: 'seen' },
    { celsius: 30, published: 0.962, alpha004: 0.9615, iacs: 0.9622, prov: 'seen' },
    { celsius: 35, published: 0.943, alpha004: 0.9434, iacs: 0.9443, prov: 'seen' },
    { celsius: 40, published: 0.926, alpha004: 0.9259, iacs: 0.9271, prov: 'seen' },
    { celsius: 45, published: 0.909, alpha004: 0.9091, iacs: 0.9106, prov: 'seen' },
    { celsius: 50, published: 0.893, alpha004: 0.8929, iacs: 0.8946, prov: 'seen' },
    { celsius: 55, published: 0.877, alpha004: 0.8772, iacs: 0.8791, prov: 'seen' },
    { celsius: 60, published: 0.862, alpha004: 0.8621, iacs: 0.8642, prov: 'seen' },
    { celsius: 65, published: 0.847, alpha004: 0.8475, iacs: 0.8497, prov: 'seen' },
    { celsius: 70, published: 0.833, alpha004: 0.8333, iacs: 0.8358, prov: 'seen' },
    { celsius: 75, published: 0.82, alpha004: 0.8197, iacs: 0.8223, prov: 'seen' },
    { celsius: 80, published: 0.806, alpha004: 0.8065, iacs: 0.8092, prov: 'seen' },
    { celsius: 85, published: 0.794, alpha004: 0.7937, iacs: 0.7966, prov: 'seen' },
    { celsius: 90, published: 0.781, alpha004: 0.7812, iacs: 0.7843, prov: 'seen' },
    { celsius: 95, published: 0.769, alpha004: 0.7692, iacs: 0.7724, prov: 'seen' },
    { celsius: 100, published: 0.758, alpha004: 0.7576, iacs: 0.7608, prov: 'seen' },
  ],
};
