/** Parts with any number of equal terminals: a star, half the resistance for each tap. */
import type { ElementOf, Surroundings } from '../contracts/index.ts';
import { contact } from './circuit.ts';

/** From every terminal that carries a wire to the centre. */
export const star = (at: Surroundings, ohms: number): readonly ElementOf<string>[] =>
  at.wiredTerminals.map((terminal) => contact(terminal, '.centre', !at.opened, ohms / 2));
