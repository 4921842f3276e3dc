/** Begins the app. */
import { createRoot } from 'react-dom/client';
import { begin } from './begin.ts';
import { App } from './shell/App.tsx';
import './styles/index.css';

const place = document.querySelector('#app');
if (place !== null) createRoot(place).render(<App />);
void begin();
