/** The text of the build: typed freely, errors at their line, completion from the schema and from the build's own names. */
import type { JsonSchema } from '@loomwright/engine';
import {
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
  type CSSProperties,
  type KeyboardEvent,
  type ReactElement,
} from 'react';
import { buildStore, editText, reader } from '../../../build-store.ts';
import { useFromBuild, useText } from '../../../hooks.ts';
import { VerdictMark } from '../../../marks/VerdictMark.tsx';
import { useReadable } from '../use-drawing.ts';
import { own } from '../words.ts';
import { CompletionList } from './CompletionList.tsx';
import { completeAt, type Completed } from './complete.ts';
import './text.css';

/** A pause in typing after which the text is read, ms. */
const PAUSE = 160;
const NONE: Completed = { from: 0, to: 0, items: [] };

export function TextSheet({ line }: { readonly line: number | null }): ReactElement {
  const text = useText();
  const diagnostics = useFromBuild((state) => state.diagnostics);
  const readable = useFromBuild((state) => state.readable);
  const [typed, setTyped] = useState(text ?? '');
  const [offered, setOffered] = useState(NONE);
  const [chosen, setChosen] = useState(0);
  const [scroll, setScroll] = useState({ top: 0, left: 0 });
  const area = useRef<HTMLTextAreaElement>(null);
  const wanted = useRef<number | null>(null);
  const sent = useRef(text);
  const schema = useSchema();
  const subject = useSubject();

  useEffect(() => {
    // What came from elsewhere: a remedy, the slip, another window, undo.
    if (text === sent.current) return;
    sent.current = text;
    setTyped(text ?? '');
    setOffered(NONE);
  }, [text]);
  useEffect(() => {
    if (typed === sent.current) return undefined;
    const timer = setTimeout(() => {
      sent.current = typed;
      void editText(typed);
    }, PAUSE);
    return () => clearTimeout(timer);
  }, [typed]);
  useFlush(typed, sent);
  useLayoutEffect(() => {
    if (wanted.current === null) return;
    area.current?.setSelectionRange(wanted.current, wanted.current);
    wanted.current = null;
  }, [typed]);
  useEffect(() => {
    if (line !== null) goTo(area.current, line, 1);
  }, [line]);

  const complete = (): void => {
    const at = area.current?.selectionStart ?? 0;
    if (schema === null) return;
    setOffered(completeAt(typed, at, schema, subject));
    setChosen(0);
  };
  const take = (index: number): void => {
    const item = offered.items[index];
    if (item === undefined) return;
    wanted.current = offered.from + item.insert.length;
    setTyped(typed.slice(0, offered.from) + item.insert + typed.slice(offered.to));
    setOffered(NONE);
    area.current?.focus();
  };
  const onKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey && event.key === ' ') {
      event.preventDefault();
      complete();
      return;
    }
    if (offered.items.length === 0) return;
    const last = offered.items.length - 1;
    if (event.key === 'ArrowDown') setChosen(Math.min(last, chosen + 1));
    else if (event.key === 'ArrowUp') setChosen(Math.max(0, chosen - 1));
    else if (event.key === 'Enter' || event.key === 'Tab') take(chosen);
    else if (event.key === 'Escape') setOffered(NONE);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const errors = diagnostics.filter((each) => each.severity === 'error');
  const bad = new Set(diagnostics.map((each) => each.line));
  const count = typed.split('\n').length;
  return (
    <div className="text-sheet">
      <div className="text-head">
        <h2 className="lead">{own.text.title}</h2>
        <span className="small quiet">{own.text.keep}</span>
      </div>
      <div className="text-edit">
        <div className="text-lines" aria-hidden="true">
          <div style={{ transform: `translateY(${-scroll.top}px)` }}>
            {Array.from({ length: count }, (_, i) => (
              <span key={i} className={bad.has(i + 1) ? 'bad' : ''}>
                {i + 1}
              </span>
            ))}
          </div>
        </div>
        <div className="text-area">
          <textarea
            ref={area}
            value={typed}
            wrap="off"
            spellCheck={false}
            autoCapitalize="off"
            autoComplete="off"
            aria-label={own.text.title}
            aria-invalid={!readable}
            aria-describedby="text-errors"
            aria-autocomplete="list"
            aria-controls="completions"
            onChange={(event) => {
              setTyped(event.target.value);
              setOffered(NONE);
            }}
            onKeyDown={onKey}
            onScroll={(event) =>
              setScroll({ top: event.currentTarget.scrollTop, left: event.currentTarget.scrollLeft })
            }
            onBlur={() => setTimeout(() => setOffered(NONE), 150)}
          />
          <div className="text-marks" aria-hidden="true">
            {diagnostics.map((each) => (
              <span
                key={`${each.line} ${each.column} ${each.message}`}
                style={{
                  top: `calc(${each.line} * var(--line) - 3px - ${scroll.top}px + 8px)`,
                  left: `calc(${each.column - 1}ch - ${scroll.left}px + 8px)`,
                  width: `${Math.max(2, each.found.length)}ch`,
                }}
              />
            ))}
          </div>
          <CompletionList
            offered={offered}
            chosen={chosen}
            take={take}
            at={placeOf(typed, offered.from, scroll, area.current?.clientHeight ?? 400)}
          />
        </div>
      </div>
      <div id="text-errors" className="text-errors" role="status">
        {diagnostics.length === 0 ? (
          <p className="small">
            <VerdictMark verdict="met" small /> {own.text.fine}
          </p>
        ) : (
          <>
            {errors.length > 0 && (
              <p className="small strong">{`${own.text.errors(errors.length)}. ${own.text.kept}`}</p>
            )}
            <ul>
              {diagnostics.slice(0, 12).map((each) => (
                <li key={`${each.line} ${each.column} ${each.message}`}>
                  <button
                    type="button"
                    className="row error-row"
                    onClick={() => goTo(area.current, each.line, each.column)}
                  >
                    <VerdictMark verdict={each.severity === 'error' ? 'fault' : 'advice'} small />
                    <span className="small">
                      <b>{own.text.line(each.line, each.column)}</b>: {each.message}
                    </span>
                  </button>
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
    </div>
  );
}

/** What was typed last goes out too when the text is left. */
function useFlush(typed: string, sent: { current: string | null }): void {
  const latest = useRef(typed);
  latest.current = typed;
  useEffect(
    () => () => {
      if (latest.current !== sent.current && buildStore.get().text !== null) void editText(latest.current);
    },
    [sent],
  );
}

let known: JsonSchema | null = null;

function useSchema(): JsonSchema | null {
  const [schema, setSchema] = useState(known);
  useEffect(() => {
    if (known !== null) return;
    void reader.ask.schema().then((found) => {
      known = found;
      setSchema(found);
    });
  }, []);
  return schema;
}

function useSubject() {
  const { text, auto } = useReadable();
  const [subject, setSubject] = useState<Awaited<ReturnType<typeof reader.ask.subject>>>(null);
  useEffect(() => {
    if (text !== null) void reader.ask.subject(text, auto).then(setSubject);
  }, [text, auto]);
  return subject;
}

/** Height of a line, px; the style sheet has the same. */
const LINE = 22;

function goTo(area: HTMLTextAreaElement | null, line: number, column: number): void {
  if (area === null) return;
  const before = area.value.split('\n').slice(0, line - 1);
  const at = before.reduce((sum, each) => sum + each.length + 1, 0) + column - 1;
  area.focus();
  area.setSelectionRange(at, at);
  area.scrollTop = Math.max(0, (line - 1) * LINE - area.clientHeight / 2);
}

/** Under the line, or above it where there is no room below. */
function placeOf(
  text: string,
  at: number,
  scroll: { readonly top: number; readonly left: number },
  height: number,
): CSSProperties {
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  const column = at - (before.lastIndexOf('\n') + 1);
  const left = `max(0px, min(calc(${column}ch - ${scroll.left}px + 8px), calc(100% - 380px)))`;
  const under = line * LINE - scroll.top + 12;
  return under + LIST_HEIGHT > height
    ? { bottom: `${height - under + LINE + 6}px`, left }
    : { top: `${under}px`, left };
}

/** The most that the list of completions takes, px. */
const LIST_HEIGHT = 234;
