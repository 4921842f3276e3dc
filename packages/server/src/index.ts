/** The server and its store, for the command line. */
export { backup, type BackedUp } from './backup/backup.ts';
export { restore, type Restored } from './backup/restore.ts';
export { dataFolder, type Surroundings } from './data-folder.ts';
export { Problem, type ProblemCode, type ProblemWords } from './problem.ts';
export { PORT, startServer, type Running, type ServeOptions } from './serve.ts';
