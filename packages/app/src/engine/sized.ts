/** A build with the size that was found for its `auto` wires put in: what is drawn and tried, without judging once more. */
import type { Session } from '@loomwright/engine';
import type { Sessions } from './sessions.ts';

/** `auto`: a size as documents write it; null: none is known yet. */
export function sized(sessions: Sessions, text: string, auto: string | null): Session {
  const session = sessions.of(text);
  if (auto === null || session.build === null) return session;
  const key = `${auto}\n${text}`;
  const known = sessions.known(key);
  if (known !== undefined) return known;
  const changes = [...session.build.wires.values()]
    .filter((wire) => wire.size === 'auto')
    .map((wire) => ({ set: ['wires', wire.id, 'size'], to: auto }));
  const made = changes.length === 0 ? session : session.edit(changes);
  const whole = made.build === null ? session : made;
  sessions.keep(whole, key);
  return whole;
}
