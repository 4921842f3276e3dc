/** An output below this has its battery the wrong way round, V: less than what leaks and rounding put across an empty output. */
export const TURNED_V = -1;
