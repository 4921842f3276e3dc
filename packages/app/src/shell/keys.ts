/** Single keys, silent in fields, and can be switched off. */
import { redo, undo } from '../build-store.ts';
import { sheets } from '../sheets/registry.ts';
import { showMargin, showSheet, viewStore } from '../view-store.ts';

/** Further keys of the sheet on view; a sheet registers them while it is shown. */
const own = new Map<string, () => void>();

/** Registers single keys of a sheet; gives back how to take them away. */
export function sheetKeys(keys: Readonly<Record<string, () => void>>): () => void {
  for (const [key, deed] of Object.entries(keys)) own.set(key, deed);
  return () => {
    for (const [key, deed] of Object.entries(keys)) if (own.get(key) === deed) own.delete(key);
  };
}

export function listenToKeys(): () => void {
  document.addEventListener('keydown', onKey);
  return () => document.removeEventListener('keydown', onKey);
}

function onKey(event: KeyboardEvent): void {
  if (event.defaultPrevented || event.altKey) return;
  if (event.ctrlKey || event.metaKey) {
    if (withControl(event.key.toLowerCase(), event.shiftKey, inField(event.target))) event.preventDefault();
    return;
  }
  if (event.key === 'Escape') {
    letGo();
    return;
  }
  if (inField(event.target) || !viewStore.get().keys) return;
  if (single(event.key)) event.preventDefault();
}

function inField(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches('input, textarea, select, [contenteditable="true"]');
}

function withControl(key: string, shift: boolean, field: boolean): boolean {
  if (key === 's') {
    showMargin('saving');
    return true;
  }
  if (field || key !== 'z') return false;
  void (shift ? redo() : undo());
  return true;
}

function letGo(): void {
  const view = viewStore.get();
  if (view.blockUp) viewStore.set({ blockUp: false });
  else if (view.margin !== null) viewStore.set({ margin: null, marginUp: false });
  else viewStore.set({ picked: null, marginUp: false });
}

const COMMON: Readonly<Record<string, () => void>> = {
  '/': () => showMargin('find'),
  f: () => showMargin('findings'),
  '?': () => showMargin('keys'),
};

function single(key: string): boolean {
  const sheet = sheets.find((each) => String(each.digit) === key);
  const deed = sheet === undefined ? (own.get(key) ?? COMMON[key]) : () => showSheet(sheet.id);
  deed?.();
  return deed !== undefined;
}
