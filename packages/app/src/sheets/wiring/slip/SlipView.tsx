/** The slip: what is picked up, given values left, worked out ones right, and what can be done with it. */
import type { Change, DrawingSubject, LiveReading, Slip, View } from '@loomwright/engine';
import { useState, type ReactElement } from 'react';
import { edit } from '../../../build-store.ts';
import { useBuild } from '../../../hooks.ts';
import { pick } from '../../../view-store.ts';
import { stepInOrder } from '../edit/drop.ts';
import { own } from '../words.ts';
import { Field } from './Field.tsx';
import { besideOf, figuresOf } from './figures.ts';
import { useSlip } from './use-slip.ts';

interface Props {
  readonly slip: Slip;
  readonly subject: DrawingSubject | null;
  readonly reading: LiveReading | null;
  readonly toText: (line: number) => void;
  readonly joinFrom: (terminal: string) => void;
  /** The sheet on view, whose order can be changed; null: there is none. */
  readonly sheet: View | null;
}

/** The slip of what is picked up; nothing while nothing of that name is known. */
export function PickedSlip({
  picked,
  ...rest
}: Omit<Props, 'slip'> & { readonly picked: string }): ReactElement | null {
  const slip = useSlip(picked);
  return slip === null ? null : <SlipView key={slip.id} slip={slip} {...rest} />;
}

/** Fields shown at first. */
const SHORT = 6;

function SlipView({ slip, subject, reading, toText, joinFrom, sheet }: Props): ReactElement {
  const [all, setAll] = useState(false);
  const given = slip.fields.filter((field) => field.given !== null || field.wanted);
  const first = (given.length > 0 ? given : slip.fields).slice(0, SHORT);
  const shown = all ? slip.fields : first;
  const units = useBuild()?.units ?? 'metric';
  const figures = [...besideOf(slip, units), ...figuresOf(slip.id, subject, reading), ...slip.figures];
  const rest = slip.fields.length - first.length;
  return (
    <div className="slip-view">
      <div className="slip-head">
        <b>{slip.designation === '' ? slip.name : slip.designation}</b>
        <span className="small">{slip.what === 'part' ? slip.name : slip.title}</span>
      </div>
      <div className="slip-fields">
        {shown.map((field) => (
          <Field
            key={`${slip.id} ${field.name}`}
            field={field}
            id={slip.id}
            toText={() => toText(slip.line ?? 1)}
          />
        ))}
        {figures.map(({ label, value }) => (
          <div key={label} className="slip-field">
            <span className="caption">{label}</span>
            <span className="slip-value">{value}</span>
          </div>
        ))}
        {rest > 0 && (
          <button type="button" className="button plain" aria-expanded={all} onClick={() => setAll(!all)}>
            {all ? own.slip.fewer : own.slip.more(rest)}
          </button>
        )}
      </div>
      <Deeds {...{ slip, subject, toText, joinFrom, sheet }} />
    </div>
  );
}

function Deeds({ slip, subject, toText, joinFrom, sheet }: Omit<Props, 'reading'>): ReactElement {
  const build = useBuild();
  const wires =
    slip.what === 'part'
      ? [...(build?.wires.values() ?? [])].filter((wire) =>
          [wire.from, wire.to].some((end) => end.startsWith(`${slip.id}.`)),
        )
      : [];
  const remove = (): void => {
    const changes: Change[] = [
      ...wires.map((wire) => ({ remove: ['wires', wire.id] })),
      { remove: [slip.what === 'part' ? 'parts' : 'wires', slip.id] },
    ];
    void edit(changes, own.removed(slip.id, wires.length));
    pick(null);
  };
  const free = slip.terminals.find((terminal) => terminal.wires.length === 0) ?? slip.terminals[0];
  const { line } = slip;
  return (
    <div className="slip-deeds">
      {free !== undefined && (
        <button type="button" className="button" onClick={() => joinFrom(`${slip.id}.${free.name}`)}>
          {own.slip.wire}
        </button>
      )}
      {slip.what === 'part' && sheet !== null && subject?.parts.has(slip.id) === true && (
        <span className="segments" role="group" aria-label={own.drag.title}>
          <button type="button" onClick={() => void stepInOrder(slip.id, -1, subject, sheet)}>
            {own.drag.higher}
          </button>
          <button type="button" onClick={() => void stepInOrder(slip.id, 1, subject, sheet)}>
            {own.drag.lower}
          </button>
        </span>
      )}
      {slip.what !== 'place' && (
        <button type="button" className="button" onClick={remove}>
          {wires.length === 0 ? own.slip.remove : own.slip.removeWith(wires.length)}
        </button>
      )}
      {line !== null && (
        <button type="button" className="button" onClick={() => toText(line)}>
          {own.slip.inText}
        </button>
      )}
      <button type="button" className="button" onClick={() => pick(null)}>
        {own.slip.letGo} <kbd className="key">Esc</kbd>
      </button>
    </div>
  );
}
