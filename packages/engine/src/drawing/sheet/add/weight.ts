/** What a way of setting something into a picture costs: a crossing, a bend; and for each mm that the picture moves apart, of wire, that
 * a bar gets longer, and that a part is away from where it stood. */
export const WEIGHT = { crossing: 60, bend: 3, apart: 0.4, length: 0.04, beyond: 0.25, away: 0.08 } as const;
