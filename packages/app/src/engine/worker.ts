/** The engine in a worker of its own: the screen stays free while it computes. */
import { workAs } from './work-as.ts';

workAs(self.name);
