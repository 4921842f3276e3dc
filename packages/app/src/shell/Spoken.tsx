/** Two live regions: one polite, one for what must be heard at once. */
import type { ReactElement } from 'react';
import { useView } from '../hooks.ts';

export function Spoken(): ReactElement {
  const polite = useView((view) => view.polite);
  const assertive = useView((view) => view.assertive);
  return (
    <>
      <div className="unseen" role="status" aria-live="polite">
        {polite}
      </div>
      <div className="unseen" role="alert" aria-live="assertive">
        {assertive}
      </div>
    </>
  );
}
