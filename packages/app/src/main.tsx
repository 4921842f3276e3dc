/** Begins the app. */
import { createRoot } from 'react-dom/client';
import { App } from './shell/App.tsx';
import './styles/index.css';

const place = document.querySelector('#app');
if (place !== null) createRoot(place).render(<App />);
