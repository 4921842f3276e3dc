/** Builds to look at, the demo first. */
import type { ReactElement } from 'react';
import { EXAMPLES, type Example } from '../../store/examples.ts';
import { openExample } from '../../store/open-example.ts';
import { showMargin, showSheet } from '../../view-store.ts';
import { words } from '../../words.ts';

export function Examples(): ReactElement {
  return (
    <section className="margin-pad stack">
      <h3>{words.examples.title}</h3>
      <p className="small quiet">{words.examples.says}</p>
      <ul className="rows">
        {EXAMPLES.map((example) => (
          <li key={example.name} className="list-line">
            <button type="button" className="row list-main" onClick={() => void look(example)}>
              <b>{example.title}</b>
              <span className="small quiet">{example.shows}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

async function look(example: Example): Promise<void> {
  await openExample(example);
  showMargin(null);
  showSheet('wiring');
}

/** One press to the demo, as long as nothing is on the desk. */
export function DemoButton(): ReactElement {
  const [demo] = EXAMPLES;
  return (
    <button type="button" className="button" onClick={() => demo !== undefined && void look(demo)}>
      {words.examples.demo}
    </button>
  );
}
