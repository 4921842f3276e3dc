/** The public surface of the engine: command line, server and app import only this. */
export * from './contracts/index.ts';
export * from './report/index.ts';
export {
  editDistance,
  formatSize,
  NO_BREAK_SPACE,
  nearest,
  parseQuantity,
  parseSize,
  type Size,
} from './quantity/index.ts';
