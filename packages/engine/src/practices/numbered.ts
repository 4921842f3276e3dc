/** Statements by number. */
import type { Statement, StatementId } from '../contracts/index.ts';

/** By id, in the order given; a number used twice is a mistake of the programmer. */
export function numbered(list: readonly Statement[]): ReadonlyMap<StatementId, Statement> {
  const map = new Map<StatementId, Statement>();
  for (const statement of list) {
    if (map.has(statement.id)) throw new Error(`statement ${statement.id} is written twice`);
    map.set(statement.id, statement);
  }
  return map;
}
