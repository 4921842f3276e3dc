/** Everything on the drawing as a nested list, nose to tail: place, part, terminal, wire. */
import type { DrawingSubject, LiveReading } from '@loomwright/engine';
import { printValue } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { usePicked } from '../../../hooks.ts';
import { pick } from '../../../view-store.ts';
import { own } from '../words.ts';

interface Props {
  readonly subject: DrawingSubject;
  readonly reading: LiveReading | null;
  /** Only this place, on the phone. */
  readonly only?: string | null;
}

export function PartList({ subject, reading, only = null }: Props): ReactElement {
  const places = subject.places.filter((place) => only === null || place.id === only);
  return (
    <div className="part-list">
      {only === null && <h2 className="lead">{own.list.title}</h2>}
      {places.map((place) => {
        const parts = [...subject.parts.values()].filter((part) => part.place === place.id);
        if (parts.length === 0 && only === null) return null;
        return (
          <section key={place.id}>
            <h3>{place.label}</h3>
            <ul className="rows">
              {parts.map((part) => (
                <li key={part.id}>
                  <Thing
                    id={part.id}
                    name={part.designation}
                    words={[part.name, part.symbol.plate?.join(' ') ?? '', part.title]}
                    value={partValue(reading, part.id)}
                  />
                  <Wires subject={subject} reading={reading} part={part.id} />
                </li>
              ))}
            </ul>
          </section>
        );
      })}
    </div>
  );
}

function partValue(reading: LiveReading | null, id: string): string {
  const part = reading?.parts[id];
  if (part === undefined) return '';
  const amps = part.outAmps ?? part.amps;
  return [part.memory ?? '', Math.abs(amps) < 0.05 ? '' : printValue(Math.abs(amps), 'A')]
    .filter((text) => text !== '')
    .join(', ');
}

function Wires({
  subject,
  reading,
  part,
}: {
  readonly subject: DrawingSubject;
  readonly reading: LiveReading | null;
  readonly part: string;
}): ReactElement | null {
  const ends = [...subject.wires.values()].flatMap((wire) => [
    ...(wire.from.part === part ? [{ wire, own: wire.from.terminal, far: wire.to }] : []),
    ...(wire.to.part === part ? [{ wire, own: wire.to.terminal, far: wire.from }] : []),
  ]);
  if (ends.length === 0) return <p className="small quiet part-unwired">{own.unwired}</p>;
  return (
    <ul className="part-wires">
      {ends.map(({ wire, own: terminal, far }) => {
        const name = subject.parts.get(far.part)?.designation ?? far.part;
        const amps = reading?.wires[wire.id]?.amps ?? 0;
        // The key to a drawing's labels says mm²; here nothing else does.
        const size = [
          /^[\d.]+$/.test(wire.size) ? `${wire.size}\u00A0mm²` : wire.size,
          wire.colour,
          wire.length,
        ]
          .filter((text) => text !== '')
          .join(', ');
        return (
          <li key={`${wire.id} ${terminal}`}>
            <Thing
              id={wire.assumed ? wire.from.part : wire.id}
              name={terminal}
              words={[`${wire.number} to ${name} ${far.terminal}`, size]}
              value={Math.abs(amps) < 0.05 ? '' : printValue(Math.abs(amps), 'A')}
            />
          </li>
        );
      })}
    </ul>
  );
}

interface ThingProps {
  readonly id: string;
  readonly name: string;
  readonly words: readonly string[];
  readonly value: string;
}

function Thing({ id, name, words, value }: ThingProps): ReactElement {
  const picked = usePicked();
  return (
    <button
      type="button"
      className={`row thing${picked === id ? ' picked' : ''}`}
      aria-pressed={picked === id}
      onClick={() => pick(id)}
    >
      <b>{name}</b>
      <span className="quiet">{words.filter((text) => text !== '').join(', ')}</span>
      <span className="number">{value}</span>
    </button>
  );
}
