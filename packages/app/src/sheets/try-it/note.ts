/** What was tried, as a note in the build: hands, what was laid on, readings, what became of it. */
import {
  handWords,
  printValue,
  stateWords,
  cornerWords,
  type Change,
  type DrawingSubject,
} from '@loomwright/engine';
import { today } from '../../findings/GiveValue.tsx';
import { happeningOf } from './happening.ts';
import { printProbe, probeValue, probeWords } from './probes.ts';
import { troubleWords } from './TrialSlip.tsx';
import type { TryState } from './try-store.ts';

export function noteOf(now: TryState, subject: DrawingSubject | null): string {
  const { state, contacts, opened, corner, source, usual, troubles, probes, reading } = now;
  const hands = [
    state === null ? '' : stateWords(state),
    handWords(contacts),
    ...opened.map((part) => `${part} open`),
    cornerWords(corner),
    `source ${source === null && usual === null ? 'off' : printValue(source ?? usual, 'V')}`,
  ].filter((text) => text !== '');
  const laid = troubles.map((trouble) => {
    const words = troubleWords(trouble, subject);
    return trouble.type === 'joint' ? `${words} + ${printValue(trouble.ohms * 1000, 'mΩ', true)}` : words;
  });
  const { title, lines } = happeningOf(now);
  const read = probes.map(
    (probe) => `${probeWords(probe, subject)} ${printProbe(probe, probeValue(probe, reading, subject))}`,
  );
  return [
    `Tried ${today()}: ${hands.join('; ')}.`,
    ...(laid.length === 0 ? [] : [`On trial: ${laid.join('; ')}.`]),
    title,
    ...lines.filter((line) => !line.startsWith('In ')).slice(0, 2),
    ...(read.length === 0 ? [] : [`Read: ${read.join('; ')}.`]),
  ].join(' ');
}

export function noteChange(notes: string | undefined, note: string): Change {
  const before = notes === undefined || notes.trim() === '' ? '' : `${notes.trim()}\n`;
  return { set: ['notes'], to: `${before}${note}` };
}
