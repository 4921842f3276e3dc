/** An archive that is not taken: nothing of it was written. */
import { Problem } from '../problem.ts';

export const refused = (detail: string, cause?: unknown): Problem =>
  new Problem(
    {
      code: 'archive-refused',
      status: 422,
      title: 'The archive was not taken.',
      detail: `${detail.slice(0, 1).toUpperCase()}${detail.slice(1)}. Nothing of it was written.`,
      todo: 'Choose an archive that Loomwright made; if it is one, it was damaged on its way: get it again.',
    },
    cause,
  );
