/** Puts the app into the page and something on its desk. */
import { createRoot } from 'react-dom/client';
import { begin } from './begin.ts';
import { App } from './shell/App.tsx';
import './styles/index.css';

export function start(): void {
  const place = document.querySelector('#app');
  if (place === null) return;
  createRoot(place).render(<App />);
  void begin();
}
