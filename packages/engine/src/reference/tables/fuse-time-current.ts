/**
 * Opening times of fuses by percent of rating: least and greatest, s. ISO 8820-3 blades (types F, E and the
 * larger C read in transcribed
 * data sheets, smaller C and every 160 % row from memory), ISO 8820-5 strips (memory), UL 248-14 cartridges
 * (seen), class T (memory).
 * `holds`: the standard asks that it carries this current without opening, with no time given.
 */
import type { Prov } from '../sourced.ts';
import type { Table } from '../table.ts';

export interface FuseTimeRow {
  readonly family: string;
  readonly standard: string;
  readonly fromA: number;
  readonly toA: number;
  readonly percent: number;
  readonly least: number | null;
  readonly greatest: number | null;
  readonly holds: boolean;
  readonly prov: Prov;
}

export const fuseTimeTable: Table<FuseTimeRow> = {
  title: 'Fuse opening times',
  source: 'ISO 8820-3, ISO 8820-5, SAE J1284, SAE J2077, SAE J1888, UL 248-14, UL 248-15',
  rows: [
    { family: 'blade-f', standard: 'ISO 8820-3 / SAE J2077', fromA: 2, toA: 30, percent: 110, least: 360000, greatest: null, holds: false, prov: 'seen' },
    { family: 'blade-f', standard: 'ISO 8820-3 / SAE J2077', fromA: 2, toA: 30, percent: 135, least: 0.75, greatest: 600, holds: false, prov: 'seen' },
    { family: 'blade-f', standard: 'ISO 8820-3 / SAE J2077', fromA: 2, toA: 30, percent: 160, least: 0.25, greatest: 50, holds: false, prov: 'memory' },
    { family: 'blade-f', standard: 'ISO 8820-3 / SAE J2077', fromA: 2, toA: 30, percent: 200, least: 0.15, greatest: 5, holds: false, prov: 'seen' },
    { family: 'blade-f', standard: 'ISO 8820-3 / SAE J2077', fromA: 2, toA: 30, percent: 350, least: 0.08, greatest: 0.5, holds: false, prov: 'seen' },
    { family: 'blade-f', standard: 'ISO 8820-3 / SAE J2077', fromA: 2, toA: 30, percent: 600, least: 0.03, greatest: 0.1, holds: false, prov: 'seen' },
    { family: 'blade-c', standard: 'ISO 8820-3 / SAE J1284 / UL 275', fromA: 3, toA: 30, percent: 110, least: 360000, greatest: null, holds: false, prov: 'memory' },
    { family: 'blade-c', standard: 'ISO 8820-3 / SAE J1284 / UL 275', fromA: 3, toA: 30, percent: 135, least: 0.75, greatest: 600, holds: false, prov: 'memory' },
    { family: 'blade-c', standard: 'ISO 8820-3 / SAE J1284 / UL 275', fromA: 3, toA: 30, percent: 160, least: 0.25, greatest: 50, holds: false, prov: 'memory' },
    { family: 'blade-c', standard: 'ISO 8820-3 / SAE J1284 / UL 275', fromA: 3, toA: 30, percent: 200, least: 0.15, greatest: 5, holds: false, prov: 'memory' },
    { family: 'blade-c', standard: 'ISO 8820-3 / SAE J1284 / UL 275', fromA: 3, toA: 30, percent: 350, least: 0.08, greatest: 0.5, holds: false, prov: 'memory' },
    { family: 'blade-c', standard: 'ISO 8820-3 / SAE J1284 / UL 275', fromA: 3, toA: 30, percent: 600, least: 0.03, greatest: 0.1, holds: false, prov: 'memory' },
    { family: 'blade-c', standard: 'ISO 8820-3', fromA: 35, toA: 40, percent: 100, least: 360000, greatest: null, holds: false, prov: 'seen' },
    { family: 'blade-c', standard: 'ISO 8820-3', fromA: 35, toA: 40, percent: 135, least: 0.75, greatest: 600, holds: false, prov: 'seen' },
    { family: 'blade-c', standard: 'ISO 8820-3', fromA: 35, toA: 40, percent: 200, least: 0.15, greatest: 5, holds: false, prov: 'seen' },
    { family: 'blade-c', standard: 'ISO 8820-3', fromA: 35, toA: 40, percent: 350, least: 0.08, greatest: 0.5, holds: false, prov: 'seen' },
    { family: 'blade-c', standard: 'ISO 8820-3', fromA: 35, toA: 40, percent: 600, least: null, greatest: 0.15, holds: false, prov: 'seen' },
    { family: 'blade-e', standard: 'ISO 8820-3 / SAE J1888', fromA: 20, toA: 80, percent: 100, least: 360000, greatest: null, holds: false, prov: 'seen' },
    { family: 'blade-e', standard: 'ISO 8820-3 / SAE J1888', fromA: 20, toA: 80, percent: 135, least: 60, greatest: 1800, holds: false, prov: 'seen' },
    { family: 'blade-e', standard: 'ISO 8820-3 / SAE J1888', fromA: 20, toA: 80, percent: 200, least: 2, greatest: 50, holds: false, prov: 'seen' },
    { family: 'blade-e', standard: 'ISO 8820-3 / SAE J1888', fromA: 20, toA: 80, percent: 350, least: 0.2, greatest: 7, holds: false, prov: 'seen' },
    { family: 'blade-e', standard: 'ISO 8820-3 / SAE J1888', fromA: 20, toA: 80, percent: 600, least: 0.04, greatest: 1, holds: false, prov: 'seen' },
    { family: 'strip-30', standard: 'ISO 8820-5', fromA: 30, toA: 200, percent: 110, least: 14400, greatest: null, holds: false, prov: 'memory' },
    { family: 'strip-30', standard: 'ISO 8820-5', fromA: 30, toA: 200, percent: 135, least: 120, greatest: 1800, holds: false, prov: 'memory' },
    { family: 'strip-30', standard: 'ISO 8820-5', fromA: 30, toA: 200, percent: 200, least: 1, greatest: 15, holds: false, prov: 'memory' },
    { family: 'strip-30', standard: 'ISO 8820-5', fromA: 30, toA: 200, percent: 350, least: 0.3, greatest: 5, holds: false, prov: 'memory' },
    { family: 'strip-30', standard: 'ISO 8820-5', fromA: 30, toA: 200, percent: 600, least: 0.1, greatest: 1, holds: false, prov: 'memory' },
    { family: 'strip-51', standard: 'ISO 8820-5', fromA: 60, toA: 500, percent: 110, least: 14400, greatest: null, holds: false, prov: 'memory' },
    { family: 'strip-51', standard: 'ISO 8820-5', fromA: 60, toA: 500, percent: 135, least: 120, greatest: 1800, holds: false, prov: 'memory' },
    { family: 'strip-51', standard: 'ISO 8820-5', fromA: 60, toA: 500, percent: 200, least: 1, greatest: 15, holds: false, prov: 'memory' },
    { family: 'strip-51', standard: 'ISO 8820-5', fromA: 60, toA: 500, percent: 350, least: 0.3, greatest: 5, holds: false, prov: 'memory' },
    { family: 'strip-51', standard: 'ISO 8820-5', fromA: 60, toA: 500, percent: 600, least: 0.1, greatest: 1, holds: false, prov: 'memory' },
    { family: 'cartridge', standard: 'UL 248-14', fromA: 0, toA: 30, percent: 100, least: null, greatest: null, holds: true, prov: 'seen' },
    { family: 'cartridge', standard: 'UL 248-14', fromA: 0, toA: 30, percent: 135, least: null, greatest: 3600, holds: false, prov: 'seen' },
    { family: 'cartridge', standard: 'UL 248-14', fromA: 0, toA: 30, percent: 200, least: null, greatest: 120, holds: false, prov: 'seen' },
    { family: 'cartridge', standard: 'UL 248-14', fromA: 35, toA: 60, percent: 100, least: null, greatest: null, holds: true, prov: 'seen' },
    { family: 'cartridge', standard: 'UL 248-14', fromA: 35, toA: 60, percent: 135, least: null, greatest: 3600, holds: false, prov: 'seen' },
    { family: 'cartridge', standard: 'UL 248-14', fromA: 35, toA: 60, percent: 200, least: null, greatest: 240, holds: false, prov: 'seen' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 0, toA: 30, percent: 110, least: null, greatest: null, holds: true, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 0, toA: 30, percent: 135, least: null, greatest: 3600, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 0, toA: 30, percent: 200, least: null, greatest: 120, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 31, toA: 60, percent: 110, least: null, greatest: null, holds: true, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 31, toA: 60, percent: 135, least: null, greatest: 3600, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 31, toA: 60, percent: 200, least: null, greatest: 240, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 61, toA: 100, percent: 110, least: null, greatest: null, holds: true, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 61, toA: 100, percent: 135, least: null, greatest: 7200, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 61, toA: 100, percent: 200, least: null, greatest: 360, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 101, toA: 200, percent: 110, least: null, greatest: null, holds: true, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 101, toA: 200, percent: 135, least: null, greatest: 7200, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 101, toA: 200, percent: 200, least: null, greatest: 480, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 201, toA: 400, percent: 110, least: null, greatest: null, holds: true, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 201, toA: 400, percent: 135, least: null, greatest: 7200, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 201, toA: 400, percent: 200, least: null, greatest: 600, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 401, toA: 600, percent: 110, least: null, greatest: null, holds: true, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 401, toA: 600, percent: 135, least: null, greatest: 7200, holds: false, prov: 'memory' },
    { family: 'class-t', standard: 'UL 248-15 with UL 248-1 table 4', fromA: 401, toA: 600, percent: 200, least: null, greatest: 720, holds: false, prov: 'memory' },
  ],
};
