/** What is laid on for a look: troubles with their size, and how another one is added. Never touches the build. */
import { parseQuantity, printValue, type DrawingSubject, type Trouble } from '@loomwright/engine';
import { useState, type FormEvent, type ReactElement } from 'react';
import { useStore } from '../../store/store.ts';
import { setContact, setTroubles, tryStore, isClosed, beginAgain } from './try-store.ts';
import { own } from './words.ts';

interface Props {
  readonly subject: DrawingSubject | null;
  readonly probing: boolean;
  readonly addProbe: () => void;
}

type Sort = Trouble['type'] | 'pulled';

export function TrialSlip({ subject, probing, addProbe }: Props): ReactElement {
  const now = useStore(tryStore, (state) => state);
  const [adding, setAdding] = useState(false);
  const { troubles, vehicle } = now;
  const pulled = (vehicle?.contacts ?? []).filter(
    (each) => each.type === 'fuse' && !isClosed(now, each.part),
  );
  const replace = (at: number, trouble: Trouble | null): void =>
    setTroubles(troubles.flatMap((each, i) => (i === at ? (trouble === null ? [] : [trouble]) : [each])));
  return (
    <div className="slip-view trial">
      <div className="slip-head">
        <b>{own.trial}</b>
      </div>
      <div className="slip-fields trial-list">
        {troubles.length + pulled.length === 0 && !adding && <p className="quiet">{own.nothingOnTrial}</p>}
        {troubles.map((trouble, i) => (
          <TroubleRow
            // oxlint-disable-next-line react/no-array-index-key -- the same trouble may be laid on twice
            key={i}
            trouble={trouble}
            subject={subject}
            set={(next) => replace(i, next)}
          />
        ))}
        {pulled.map(({ part, designation, name }) => (
          <div key={part} className="trouble">
            <span>
              {designation} {name}: pulled
            </span>
            <button type="button" className="button" onClick={() => setContact(part, true)}>
              {own.takeAway}
            </button>
          </div>
        ))}
        <span className="small quiet trial-note">{own.untouched}</span>
        {adding && <AddTrouble subject={subject} done={() => setAdding(false)} />}
      </div>
      <div className="slip-deeds">
        {!adding && (
          <button type="button" className="button" onClick={() => setAdding(true)}>
            {own.addTrouble}
          </button>
        )}
        <button type="button" className="button" aria-pressed={probing} onClick={addProbe}>
          {own.addProbe} <kbd className="key">p</kbd>
        </button>
        <button type="button" className="button" onClick={beginAgain}>
          {own.again}
        </button>
      </div>
    </div>
  );
}

interface RowProps {
  readonly trouble: Trouble;
  readonly subject: DrawingSubject | null;
  readonly set: (trouble: Trouble | null) => void;
}

/** Largest that the slider gives, mΩ. More can be typed. */
const MOST_MILLIOHM = 100;

function TroubleRow({ trouble, subject, set }: RowProps): ReactElement {
  return (
    <div className="trouble">
      <span>{troubleWords(trouble, subject)}</span>
      {trouble.type === 'joint' && (
        <>
          <input
            type="range"
            min={0}
            max={MOST_MILLIOHM}
            step={0.5}
            value={Math.min(MOST_MILLIOHM, trouble.ohms * 1000)}
            aria-label={`${troubleWords(trouble, subject)}, ${own.ohms}`}
            aria-valuetext={printValue(trouble.ohms * 1000, 'mΩ')}
            onChange={(event) => set({ ...trouble, ohms: Number(event.target.value) / 1000 })}
          />
          <Ohms ohms={trouble.ohms} set={(ohms) => set({ ...trouble, ohms })} />
        </>
      )}
      <button type="button" className="button" onClick={() => set(null)}>
        {own.takeAway}
      </button>
    </div>
  );
}

/** "+ 30 mΩ", typed over with its unit. */
function Ohms({ ohms, set }: { readonly ohms: number; readonly set: (ohms: number) => void }): ReactElement {
  const [text, setText] = useState<string | null>(null);
  const shown = text ?? printValue(ohms * 1000, 'mΩ', true);
  const keep = (): void => {
    if (text !== null) {
      const read = parseQuantity(text, 'resistance');
      if (read.ok && read.value >= 0 && Number.isFinite(read.value)) set(read.value);
    }
    setText(null);
  };
  return (
    <label className="ohms">
      <span className="unseen">{own.ohms}</span>+
      <input
        className="given"
        value={shown}
        onChange={(event) => setText(event.target.value)}
        onBlur={keep}
        onKeyDown={(event) => event.key === 'Enter' && keep()}
      />
    </label>
  );
}

export function troubleWords(trouble: Trouble, subject: DrawingSubject | null): string {
  if (trouble.type === 'stuck') {
    const part = subject?.parts.get(trouble.part);
    return `${part?.designation ?? ''} ${part?.name ?? trouble.part}: sticks ${trouble.at}`.trim();
  }
  const wire = subject?.wires.get(trouble.wire);
  const number = wire?.number ?? trouble.wire;
  if (trouble.type === 'open-wire') return `${number}: broken`;
  const end = trouble.end === 'from' ? wire?.from : wire?.to;
  const part = subject?.parts.get(end?.part ?? '');
  return `Joint of ${number} at ${part?.designation ?? end?.part ?? ''} ${end?.terminal ?? ''}`;
}

/** A trouble that is visible at once: a lug that is bad indeed. */
const FIRST_OHMS = 0.03;

function AddTrouble({
  subject,
  done,
}: {
  readonly subject: DrawingSubject | null;
  readonly done: () => void;
}): ReactElement {
  const { troubles, vehicle } = useStore(tryStore, (state) => state);
  const [sort, setSort] = useState<Sort>('joint');
  const choices = choicesFor(sort, subject, vehicle);
  const [chosen, setChosen] = useState('');
  const where = choices.some((choice) => choice.id === chosen) ? chosen : (choices[0]?.id ?? '');
  const lay = (event: FormEvent): void => {
    event.preventDefault();
    if (sort === 'pulled') setContact(where, false);
    else {
      const trouble = troubleOf(sort, where);
      if (trouble !== null) setTroubles([...troubles, trouble]);
    }
    done();
  };
  return (
    <form className="trouble-form" onSubmit={lay}>
      <label className="field">
        <span className="label">{own.how}</span>
        {/* oxlint-disable-next-line jsx-a11y/no-autofocus -- it was called for */}
        <select autoFocus value={sort} onChange={(event) => setSort(event.target.value as Sort)}>
          {(['joint', 'open-wire', 'stuck', 'pulled'] as const).map((each) => (
            <option key={each} value={each}>
              {own.troubles[each]}
            </option>
          ))}
        </select>
      </label>
      <label className="field">
        <span className="label">{own.where}</span>
        <select value={where} onChange={(event) => setChosen(event.target.value)}>
          {choices.map(({ id, words }) => (
            <option key={id} value={id}>
              {words}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" className="button">
        {own.lay}
      </button>
      <button type="button" className="button" onClick={done}>
        {own.cancel}
      </button>
    </form>
  );
}

function troubleOf(sort: Trouble['type'], where: string): Trouble | null {
  const [id = '', more = ''] = where.split('@');
  if (sort === 'open-wire') return { type: 'open-wire', wire: id };
  if (sort === 'stuck') return { type: 'stuck', part: id, at: more === 'closed' ? 'closed' : 'open' };
  return { type: 'joint', wire: id, end: more === 'from' ? 'from' : 'to', ohms: FIRST_OHMS };
}

interface Choice {
  readonly id: string;
  readonly words: string;
}

function choicesFor(
  sort: Sort,
  subject: DrawingSubject | null,
  vehicle: ReturnType<typeof tryStore.get>['vehicle'],
): readonly Choice[] {
  const wires = [...(subject?.wires.values() ?? [])].filter((wire) => !wire.assumed);
  const thickFirst = wires.toSorted((a, b) => (b.areaMm2 ?? 0) - (a.areaMm2 ?? 0));
  if (sort === 'joint')
    return thickFirst.flatMap((wire) =>
      (['to', 'from'] as const).map((end) => ({
        id: `${wire.id}@${end}`,
        words: troubleWords({ type: 'joint', wire: wire.id, end, ohms: 0 }, subject),
      })),
    );
  if (sort === 'open-wire')
    return wires.map((wire) => ({ id: wire.id, words: `${wire.number}, ${wire.id}` }));
  if (sort === 'pulled')
    return (vehicle?.contacts ?? [])
      .filter((each) => each.type === 'fuse')
      .map(({ part, designation, name }) => ({ id: part, words: `${designation} ${name}` }));
  return (vehicle?.sticking ?? []).flatMap(({ part, designation, name }) =>
    (['closed', 'open'] as const).map((at) => ({
      id: `${part}@${at}`,
      words: `${designation} ${name}, ${at}`,
    })),
  );
}
