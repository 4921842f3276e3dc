/** The result of `states` for programs. */
import type { ChargerLine, ReadingCell, ReadingPoint, StateLine } from '@loomwright/engine';
import type { StatesInput } from '../print/states.ts';
import { bare, jsonText, quantity, type Json } from './write.ts';

export const STATES_FORMAT = 'loomwright-states';
export const STATES_VERSION = 1;

/** State table and readings as JSON text. */
export function statesJson({ file, build, table }: StatesInput): string {
  return jsonText({
    format: STATES_FORMAT,
    version: STATES_VERSION,
    build: { file, title: build.title },
    meter: quantity(table.meterOhms, 'Ω'),
    states: table.lines.map(lineJson),
    readings: table.columns.map((column) => ({
      condition: column.condition,
      state: column.state,
      hands: { ...column.hands },
      open: column.open,
      cameFrom: [...column.cameFrom],
      cells: column.cells.flatMap((cell, index) => {
        const point = table.points[index];
        return cell === null || point === undefined ? [] : [cellJson(point, cell)];
      }),
    })),
  });
}

function lineJson(line: StateLine): Json {
  return {
    condition: line.condition,
    state: line.state,
    hands: { ...line.hands },
    cameFrom: [...line.cameFrom],
    outcome: line.outcome,
    supply: line.supply,
    lasts: quantity(line.lasts, 's'),
    posts: line.posts === null ? null : quantity(line.posts, 'V'),
    signals: line.signals.map(({ part, volts }) => ({ part, volts: bare(volts) })),
    chargers: line.chargers.map(chargerJson),
  };
}

function chargerJson(charger: ChargerLine): Json {
  return {
    part: charger.part,
    charging: charger.charging,
    enable: bare(charger.enable),
    input: bare(charger.input),
    inAmps: bare(charger.inAmps),
    outAmps: bare(charger.outAmps),
    duty: bare(charger.duty),
    period: bare(charger.period),
  };
}

function cellJson(point: ReadingPoint, cell: ReadingCell): Json {
  return {
    point: point.id,
    label: point.label,
    measure: point.measure,
    red: point.red,
    black: point.black,
    reading: quantity(cell.value, cell.unit, cell.value === null ? (cell.note ?? undefined) : undefined),
    range: cell.range === null ? null : [bare(cell.range[0]), bare(cell.range[1])],
    note: cell.note,
    floating: cell.floating,
  };
}
