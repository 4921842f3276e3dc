/** What may be written here; chosen by arrow keys, taken by Enter. */
import { useEffect, useRef, type CSSProperties, type ReactElement } from 'react';
import { own } from '../words.ts';
import type { Completed } from './complete.ts';

interface Props {
  readonly offered: Completed;
  readonly chosen: number;
  readonly take: (index: number) => void;
  readonly at: CSSProperties;
}

export function CompletionList({ offered, chosen, take, at }: Props): ReactElement {
  const list = useRef<HTMLUListElement>(null);
  useEffect(() => {
    const item = list.current?.children[chosen];
    if (!(item instanceof HTMLElement) || list.current === null) return;
    // Only the list may move, never what it stands in.
    const { offsetTop, offsetHeight } = item;
    const { scrollTop, clientHeight } = list.current;
    if (offsetTop < scrollTop) list.current.scrollTop = offsetTop;
    else if (offsetTop + offsetHeight > scrollTop + clientHeight)
      list.current.scrollTop = offsetTop + offsetHeight - clientHeight;
  }, [chosen, offered]);
  return (
    <ul
      id="completions"
      ref={list}
      role="listbox"
      className="completions"
      aria-label={own.text.completions}
      hidden={offered.items.length === 0}
      style={at}
    >
      {offered.items.map(({ label, doc }, i) => (
        // oxlint-disable-next-line jsx-a11y/click-events-have-key-events -- the keys are those of the text
        <li
          key={label}
          role="option"
          aria-selected={i === chosen}
          onMouseDown={(event) => {
            event.preventDefault();
            take(i);
          }}
        >
          <b>{label}</b>
          <span className="small">{doc}</span>
        </li>
      ))}
    </ul>
  );
}
