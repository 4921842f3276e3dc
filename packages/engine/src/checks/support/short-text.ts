/** Short spellings of quantities inside the arithmetic of a working line, and comparison at a limit. */
import { formatQuantity } from '../../quantity/index.ts';

export const amps = (value: number): string => formatQuantity(value, 'current', { trim: true });
export const volts = (value: number): string => formatQuantity(value, 'voltage', { trim: true });
export const watts = (value: number): string => formatQuantity(value, 'power', { trim: true });
export const ohms = (value: number): string => formatQuantity(value, 'resistance', { trim: true });
export const seconds = (value: number): string => formatQuantity(value, 'time');
export const celsius = (value: number): string => formatQuantity(value, 'temperature');
export const square = (value: number): string => formatQuantity(value, 'area');
export const metres = (value: number): string => formatQuantity(value, 'length');
export const factor = (value: number): string => formatQuantity(value, 'factor', { trim: true });
/** Up to three figures, no unit. */
export const number = (value: number): string => String(Number(value.toPrecision(3)));

/** A limit within one part in a thousand million counts as met. */
export const atMost = (value: number, limit: number): boolean => value <= limit + Math.abs(limit) * 1e-9;
