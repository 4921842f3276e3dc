/** The public surface of the engine: command line, server and app import only this. */
export * from './contracts/index.ts';
export * from './report/index.ts';
