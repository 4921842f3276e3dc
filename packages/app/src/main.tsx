/** Begins the app. */
import { start } from './start.tsx';

start();
// Opens the app also while the server is not running; where a browser has none, it opens as long as the server is there.
if (import.meta.env.PROD && 'serviceWorker' in navigator)
  void navigator.serviceWorker.register('/sw.js').catch(() => undefined);
