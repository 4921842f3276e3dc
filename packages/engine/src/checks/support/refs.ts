/** Terminals are written `part.terminal`; only the first dot divides. */
import type { Id, Placed, Operation, TerminalRef } from '../../contracts/index.ts';

export const partOf = (ref: TerminalRef): Id => ref.slice(0, Math.max(0, ref.indexOf('.')));
export const terminalOf = (ref: TerminalRef): string => ref.slice(ref.indexOf('.') + 1);
export const refOf = (part: Id, terminal: string): TerminalRef => `${part}.${terminal}`;

/** The part that a terminal belongs to. */
export const placedAt = (op: Operation, ref: TerminalRef): Placed | null => op.parts.get(partOf(ref)) ?? null;

/** The other end of a wire. */
export function otherEnd(
  wire: { readonly from: TerminalRef; readonly to: TerminalRef },
  end: TerminalRef,
): TerminalRef {
  return wire.from === end ? wire.to : wire.from;
}
