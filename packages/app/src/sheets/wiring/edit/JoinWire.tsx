/** Draws a wire: two terminals pressed in turn, or chosen from the lists; its length follows the ways. */
import { useEffect, useState, type FormEvent, type ReactElement } from 'react';
import { edit, reader } from '../../../build-store.ts';
import { useBuild } from '../../../hooks.ts';
import { Problem } from '../../../marks/Problem.tsx';
import { pick } from '../../../view-store.ts';
import { useReadable } from '../use-drawing.ts';
import { own } from '../words.ts';
import { freeName } from './names.ts';

export interface Ends {
  readonly from: string | null;
  readonly to: string | null;
}

interface Props {
  readonly ends: Ends;
  readonly set: (ends: Ends) => void;
  readonly done: () => void;
}

export function JoinWire({ ends, set, done }: Props): ReactElement {
  const build = useBuild();
  const [size, setSize] = useState('auto');
  const [problem, setProblem] = useState('');
  if (build === null) return <p />;
  const draw = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (!isWhole(ends.from) || !isWhole(ends.to)) return;
    const id = freeName(wireName(ends.from, ends.to), build.wires);
    const value = { from: ends.from, to: ends.to, ...(size.trim() === '' ? {} : { size: size.trim() }) };
    const refused = await edit([{ add: ['wires', id], value }], own.join.says(id, ends.from, ends.to));
    setProblem(refused.map((each) => each.message).join(' '));
    if (refused.length > 0) return;
    pick(id);
    done();
  };
  const ready = isWhole(ends.from) && isWhole(ends.to);
  return (
    <form className="slip-form" onSubmit={(event) => void draw(event)}>
      <p className="small" aria-live="polite">
        {isWhole(ends.from) ? own.join.second : own.join.first}
      </p>
      <TerminalChoice first label={own.join.from} value={ends.from} set={(from) => set({ ...ends, from })} />
      <TerminalChoice label={own.join.to} value={ends.to} set={(to) => set({ ...ends, to })} />
      <label className="field">
        <span className="label">{own.join.size}</span>
        <input value={size} onChange={(event) => setSize(event.target.value)} autoComplete="off" />
      </label>
      <button type="submit" className={ready ? 'button solid' : 'button'} aria-disabled={!ready}>
        {own.join.draw}
      </button>
      <button type="button" className="button" onClick={done}>
        {own.slip.cancel}
      </button>
      <Problem says={problem} />
    </form>
  );
}

/** A part without its terminal is only half an end. */
const isWhole = (end: string | null): end is string => end !== null && !end.endsWith('.');

const wireName = (from: string, to: string): string => `${partOf(from)}-to-${partOf(to)}`;
const partOf = (terminal: string): string => terminal.slice(0, terminal.indexOf('.'));
const nameOf = (terminal: string): string => terminal.slice(terminal.indexOf('.') + 1);

interface ChoiceProps {
  /** It takes the focus. */
  readonly first?: boolean;
  readonly label: string;
  readonly value: string | null;
  readonly set: (terminal: string | null) => void;
}

function TerminalChoice({ first = false, label, value, set }: ChoiceProps): ReactElement {
  const build = useBuild();
  const part = value === null ? '' : partOf(value);
  const terminals = useTerminals(part);
  return (
    <>
      <label className="field">
        <span className="label">
          {label}, {own.join.part}
        </span>
        <select
          // oxlint-disable-next-line jsx-a11y/no-autofocus -- it was called for
          autoFocus={first}
          value={part}
          onChange={(event) => set(event.target.value === '' ? null : `${event.target.value}.`)}
        >
          <option value="">{own.join.choose}</option>
          {[...(build?.parts.keys() ?? [])].map((id) => (
            <option key={id} value={id}>
              {id}
            </option>
          ))}
        </select>
      </label>
      <label className="field">
        <span className="label">
          {label}, {own.join.terminal}
        </span>
        <select
          value={value === null ? '' : nameOf(value)}
          aria-busy={terminals === null}
          onChange={(event) => set(event.target.value === '' ? null : `${part}.${event.target.value}`)}
        >
          <option value="">
            {terminals?.length === 0 && part !== '' ? own.join.noTerminals : own.join.choose}
          </option>
          {(terminals ?? NONE).map(({ name, wires }) => (
            <option key={name} value={name}>
              {wires.length === 0 ? name : `${name} (${wires.join(', ')})`}
            </option>
          ))}
        </select>
      </label>
    </>
  );
}

interface Terminal {
  readonly name: string;
  readonly wires: readonly string[];
}

const NONE: readonly Terminal[] = [];

/**
 * Terminals of a part; null: they are not known yet. Never those of another part, not for a moment: what is typed into a list picks
 * from what stands in it. While a newer text is read they stay as they were.
 */
function useTerminals(part: string): readonly Terminal[] | null {
  const { text } = useReadable();
  const [known, setKnown] = useState<{ readonly part: string; readonly list: readonly Terminal[] } | null>(
    null,
  );
  useEffect(() => {
    let stale = false;
    if (part === '' || text === null) return undefined;
    const take = (list: readonly Terminal[]): void => {
      if (!stale) setKnown({ part, list });
    };
    // Where the engine fails, the build's own screen says so: here there is nothing to choose.
    reader.ask.slip(text, part).then(
      (slip) => take(slip?.terminals ?? NONE),
      () => take(NONE),
    );
    return () => {
      stale = true;
    };
  }, [part, text]);
  if (part === '') return NONE;
  return known?.part === part ? known.list : null;
}
