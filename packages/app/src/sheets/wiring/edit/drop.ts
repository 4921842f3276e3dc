/** What was dragged becomes a change: of a place, of an end, or of the drawing's order. */
import { rearranged, type DrawingSubject, type Rearrangement, type View } from '@loomwright/engine';
import { arrange, buildStore, edit, reader } from '../../../build-store.ts';
import { orderNow } from '../../../store/drawing-order.ts';
import { pick, say } from '../../../view-store.ts';
import type { Drop } from '../drawing/dragging.ts';
import { own } from '../words.ts';

export async function carryOut(drop: Drop, subject: DrawingSubject, view: View): Promise<void> {
  if (drop.type === 'place') await toPlace(drop.part, drop.place, subject);
  else if (drop.type === 'order')
    await inOrder(
      { part: drop.part, before: drop.before },
      view,
      nameIn(subject, drop.part),
      beforeName(drop, subject),
    );
  else if (drop.type === 'wire-order')
    await inOrder(
      { wire: drop.wire, at: drop.at, before: drop.before },
      view,
      nameIn(subject, drop.wire),
      beforeName(drop, subject),
    );
  else if (drop.type === 'terminal') await toTerminal(drop.wire, drop.end, drop.terminal, subject);
  else await ontoPart(drop, subject);
}

/** One step up or down among the parts of its place: the way of those who do not drag. */
export async function stepInOrder(
  part: string,
  by: -1 | 1,
  subject: DrawingSubject,
  view: View,
): Promise<void> {
  const place = subject.parts.get(part)?.place;
  const nodes = (await orderNow())?.views[view]?.screen?.nodes ?? [];
  const own = nodes.filter((id) => subject.parts.get(id)?.place === place);
  const at = own.indexOf(part);
  if (at < 0 || at + by < 0 || at + by >= own.length) return;
  const before = (by < 0 ? own[at - 1] : own[at + 2]) ?? null;
  await inOrder(
    { part, before },
    view,
    nameIn(subject, part),
    before === null ? null : nameIn(subject, before),
  );
}

async function inOrder(wish: Rearrangement, view: View, what: string, before: string | null): Promise<void> {
  const order = await orderNow();
  const next = order === null ? null : rearranged(order, view, wish);
  if (order !== null && next !== null) await arrange(order, next, own.drag.ordered(what, before));
}

async function toPlace(part: string, place: string, subject: DrawingSubject): Promise<void> {
  if (buildStore.get().build?.parts.has(part) !== true) {
    say(own.drag.notYours(nameIn(subject, part)));
    return;
  }
  const label = subject.places.find(({ id }) => id === place)?.label ?? place;
  await edit([{ set: ['parts', part, 'at'], to: place }], own.drag.moved(nameIn(subject, part), label));
  pick(part);
}

async function toTerminal(
  wire: string,
  end: 'from' | 'to',
  terminal: string,
  subject: DrawingSubject,
): Promise<void> {
  if (buildStore.get().build?.wires.has(wire) !== true) {
    say(own.drag.notYours(nameIn(subject, wire)));
    return;
  }
  await edit(
    [{ set: ['wires', wire, end], to: terminal }],
    own.drag.rejoined(nameIn(subject, wire), terminal),
  );
  pick(wire);
}

/** The one free terminal of a part is meant; where there are several, it is asked. */
async function ontoPart(
  { wire, end, part }: Extract<Drop, { type: 'onto' }>,
  subject: DrawingSubject,
): Promise<void> {
  const { text } = buildStore.get();
  const terminals = text === null ? [] : ((await reader.ask.slip(text, part))?.terminals ?? []);
  const free = terminals.filter((each) => each.wires.length === 0);
  const [only] = free.length === 1 ? free : terminals.length === 1 ? terminals : [];
  if (only === undefined) {
    pick(wire);
    say(own.drag.which(nameIn(subject, part)));
    buildStore.set({ said: own.drag.which(nameIn(subject, part)) });
    return;
  }
  await toTerminal(wire, end, `${part}.${only.name}`, subject);
}

const nameIn = (subject: DrawingSubject, id: string): string =>
  subject.parts.get(id)?.designation ?? subject.wires.get(id)?.number ?? id;

const beforeName = ({ before }: { readonly before: string | null }, subject: DrawingSubject): string | null =>
  before === null ? null : nameIn(subject, before);
