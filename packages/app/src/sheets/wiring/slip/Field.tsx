/** One given value of the slip: underlined, pressed to be typed over; what is wrong with it is said beside it. */
import type { Change, SlipField } from '@loomwright/engine';
import { useState, type FormEvent, type KeyboardEvent, type ReactElement } from 'react';
import { edit, foresee } from '../../../build-store.ts';
import { VerdictMark } from '../../../marks/VerdictMark.tsx';
import { own } from '../words.ts';

interface Props {
  readonly field: SlipField;
  readonly id: string;
  readonly unit?: string;
  readonly toText: () => void;
}

export function Field({ field, id, toText }: Props): ReactElement {
  const [open, setOpen] = useState(false);
  if (open) return <Typing field={field} id={id} done={() => setOpen(false)} />;
  const { name, given, assumed, plain } = field;
  const shown = given ?? assumed ?? own.slip.notGiven;
  const kind = given !== null && given !== 'unknown' ? 'given' : 'assumed';
  return (
    <button
      type="button"
      className="slip-field"
      title={field.doc}
      onClick={plain ? () => setOpen(true) : toText}
      aria-label={`${name}: ${shown}. ${plain ? 'Change it' : own.slip.inTextOnly}`}
    >
      <span className="caption">{words(name)}</span>
      <span className="slip-value">
        <span className={kind}>{shown}</span>
      </span>
    </button>
  );
}

const words = (name: string): string => {
  const spoken = name.replaceAll('-', ' ');
  return spoken.charAt(0).toUpperCase() + spoken.slice(1);
};

const changesTo = (field: SlipField, to: string): readonly Change[] => [
  to === '' ? { remove: field.path } : { set: field.path, to },
];

function Typing({
  field,
  id,
  done,
}: {
  readonly field: SlipField;
  readonly id: string;
  readonly done: () => void;
}): ReactElement {
  const [text, setText] = useState(field.given ?? '');
  const [problem, setProblem] = useState('');
  const keep = async (value: string): Promise<void> => {
    const to = value.trim();
    if (to === (field.given ?? '')) {
      done();
      return;
    }
    const refused = await edit(
      changesTo(field, to),
      `${id}, ${field.name}: ${to === '' ? own.slip.notGiven : to}.`,
    );
    setProblem(refused.map((each) => each.message).join(' '));
    if (refused.length === 0) done();
  };
  const onKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    event.nativeEvent.stopImmediatePropagation();
    done();
  };
  const label = words(field.name);
  return (
    <form
      className="slip-typing"
      onSubmit={(event: FormEvent) => {
        event.preventDefault();
        void keep(text);
      }}
      onKeyDown={onKey}
    >
      <label className="field">
        <span className="label">{label}</span>
        {field.choices.length > 1 && problem === '' ? (
          <select
            // oxlint-disable-next-line jsx-a11y/no-autofocus -- it was called for
            autoFocus
            value={text}
            onChange={(event) => {
              setText(event.target.value);
              void keep(event.target.value);
            }}
          >
            <option value="">{own.slip.clear}</option>
            {[...new Set([...(field.given === null ? [] : [field.given]), ...field.choices])].map(
              (choice) => (
                <option key={choice} value={choice}>
                  {choice}
                </option>
              ),
            )}
          </select>
        ) : (
          <input
            // oxlint-disable-next-line jsx-a11y/no-autofocus -- it was called for
            autoFocus
            value={text}
            placeholder={field.example}
            aria-invalid={problem !== ''}
            onChange={(event) => {
              setText(event.target.value);
              void foresee(changesTo(field, event.target.value.trim()));
            }}
            onFocus={(event) => event.target.select()}
            autoComplete="off"
            enterKeyHint="done"
          />
        )}
      </label>
      <button type="submit" className="button">
        {own.slip.keep}
      </button>
      <button type="button" className="button" onClick={done}>
        {own.slip.cancel}
      </button>
      {problem === '' ? (
        <p className="small quiet slip-doc">{field.doc}</p>
      ) : (
        <p className="mend small slip-doc" role="alert">
          <VerdictMark verdict="fault" small /> {problem}
        </p>
      )}
    </form>
  );
}
