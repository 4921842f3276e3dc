/** A probe being set: pressed on the drawing in turn, or chosen from the lists. */
import type { DrawingSubject } from '@loomwright/engine';
import { useState, type ReactElement } from 'react';
import { spotWords, type Probe } from './probes.ts';
import { own } from './words.ts';

interface Props {
  readonly probe: Probe;
  readonly subject: DrawingSubject | null;
  readonly set: (probe: Probe) => void;
  readonly done: () => void;
}

export function ProbeSlip({ probe, subject, set, done }: Props): ReactElement {
  const [type, setType] = useState(probe.type);
  const choose = (next: Probe['type']): void => {
    setType(next);
    set(
      next === 'clamp'
        ? { letter: probe.letter, type: 'clamp', wire: null }
        : { letter: probe.letter, type: 'volts', plus: null, minus: null },
    );
  };
  return (
    <div className="slip-form">
      <div className="segments" role="group" aria-label={own.addProbe}>
        <button type="button" aria-pressed={type === 'volts'} onClick={() => choose('volts')}>
          {own.volts}
        </button>
        <button type="button" aria-pressed={type === 'clamp'} onClick={() => choose('clamp')}>
          {own.amperes}
        </button>
      </div>
      {probe.type === 'volts' ? (
        <>
          <Spots
            label={own.plus}
            value={probe.plus}
            subject={subject}
            set={(plus) => set({ ...probe, plus })}
          />
          <Spots
            label={own.minus}
            value={probe.minus}
            subject={subject}
            set={(minus) => set({ ...probe, minus })}
          />
        </>
      ) : (
        <label className="field">
          <span className="label">{own.clamp}</span>
          <select
            value={probe.wire ?? ''}
            onChange={(event) =>
              set({ ...probe, wire: event.target.value === '' ? null : event.target.value })
            }
          >
            <option value="">—</option>
            {[...(subject?.wires.values() ?? [])].map((wire) => (
              <option key={wire.id} value={wire.id}>
                {wire.number}, {wire.id}
              </option>
            ))}
          </select>
        </label>
      )}
      <button type="button" className="button" onClick={done}>
        Done <kbd className="key">Esc</kbd>
      </button>
      <p className="small" aria-live="polite">
        <b>{probe.letter}</b> {promptFor(probe)}
      </p>
    </div>
  );
}

function promptFor(probe: Probe): string {
  if (probe.type === 'clamp') return probe.wire === null ? own.pressWire : '';
  if (probe.plus === null) return own.pressPlus;
  return probe.minus === null ? own.pressMinus : '';
}

interface SpotsProps {
  readonly label: string;
  readonly value: string | null;
  readonly subject: DrawingSubject | null;
  readonly set: (spot: string | null) => void;
}

/** Terminals first, then the copper behind each joint: across the two the joint itself is read. */
function Spots({ label, value, subject, set }: SpotsProps): ReactElement {
  const terminals = [...(subject?.parts.values() ?? [])].flatMap((part) =>
    [...part.wired].map((terminal) => `${part.id}.${terminal}`),
  );
  const ends = [...(subject?.wires.values() ?? [])]
    .filter((wire) => !wire.assumed)
    .flatMap((wire) => [`${wire.id}@from`, `${wire.id}@to`]);
  return (
    <label className="field">
      <span className="label">{label}</span>
      <select
        value={value ?? ''}
        onChange={(event) => set(event.target.value === '' ? null : event.target.value)}
      >
        <option value="">—</option>
        {[...terminals, ...ends].map((spot) => (
          <option key={spot} value={spot}>
            {spotWords(spot, subject)}
          </option>
        ))}
      </select>
    </label>
  );
}
