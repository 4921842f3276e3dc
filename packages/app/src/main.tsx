/** Begins the app. */
import { start } from './start.tsx';

start();
