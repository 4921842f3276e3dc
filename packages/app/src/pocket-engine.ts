/** The engine of the pocket file: in a worker it answers, in a page it is left for the page to take. */
import { desk } from './engine/desk.ts';
import { workAs } from './engine/work-as.ts';

if (typeof document === 'undefined') workAs(self.name);
else (globalThis as { loomwrightDesk?: typeof desk }).loomwrightDesk = desk;
