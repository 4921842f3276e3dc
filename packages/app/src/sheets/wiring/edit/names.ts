/** Names for new parts and wires. */

/** The name itself where it is free, else with the next free number. */
export function freeName(wanted: string, taken: { has(id: string): boolean }): string {
  if (!taken.has(wanted)) return wanted;
  for (let n = 2; ; n += 1) if (!taken.has(`${wanted}-${n}`)) return `${wanted}-${n}`;
}
