/** The drawing that stands in the page: the next one changes what differs and leaves the rest as it is. */
import { PIECE, type Cut } from '../../../engine/cut.ts';

const SVG = 'http://www.w3.org/2000/svg';
const NONE: Cut = { root: '', skeleton: '', pieces: new Map() };

/** Markup of the groups that stand in a page: what they were before they were dressed. */
const markups = new WeakMap<Element, string>();

/** As it was printed; null: it is no piece of a drawing. */
export const markupOf = (group: Element): string | null => markups.get(group) ?? null;

export class Shown {
  readonly svg: SVGSVGElement = document.createElementNS(SVG, 'svg');
  #now: Cut = NONE;
  #groups = new Map<string, Element>();

  /** Groups whose markup is the same stay the same elements, with all that hangs on them. */
  show(next: Cut): void {
    const groups = this.#groupsOf(next);
    if (next.root !== this.#now.root) this.#setRoot(next.root);
    if (next.skeleton === this.#now.skeleton) this.#replace(groups);
    else this.#rebuild(next, groups);
    this.#groups = groups;
    this.#now = next;
  }

  /** Those that stand already where nothing differs, else new ones. */
  #groupsOf(next: Cut): Map<string, Element> {
    const fresh = [...next.pieces].filter(([name, markup]) => this.#now.pieces.get(name) !== markup);
    const holder = document.createElementNS(SVG, 'svg');
    holder.innerHTML = fresh.map(([, markup]) => markup).join('');
    const made = new Map<string, Element>();
    for (const [i, [name, markup]] of fresh.entries()) {
      const group = holder.children[i];
      if (group === undefined) continue;
      markups.set(group, markup);
      made.set(name, group);
    }
    const groups = new Map<string, Element>();
    for (const name of next.pieces.keys()) {
      const group = made.get(name) ?? this.#groups.get(name);
      if (group !== undefined) groups.set(name, group);
    }
    return groups;
  }

  #replace(groups: ReadonlyMap<string, Element>): void {
    for (const [name, group] of groups) {
      const old = this.#groups.get(name);
      if (old !== group) old?.replaceWith(group);
    }
  }

  #rebuild({ skeleton }: Cut, groups: ReadonlyMap<string, Element>): void {
    const holder = document.createElementNS(SVG, 'svg');
    holder.innerHTML = skeleton;
    const order = [...groups.values()];
    for (const [i, hollow] of [...holder.querySelectorAll(`[${PIECE}]`)].entries()) {
      const group = order[i];
      if (group !== undefined) hollow.replaceWith(group);
    }
    // What was added stays where it is: taken out of the page, it would lose the focus.
    for (const child of Array.from(this.svg.children)) if (!child.hasAttribute(ADDED)) child.remove();
    this.svg.prepend(...holder.children);
  }

  #setRoot(attributes: string): void {
    const holder = document.createElement('div');
    holder.innerHTML = `<svg${attributes}></svg>`;
    const root = holder.firstElementChild;
    for (const { name } of Array.from(this.svg.attributes))
      if (root?.hasAttribute(name) !== true) this.svg.removeAttribute(name);
    for (const { name, value } of root?.attributes ?? [])
      if (name !== 'xmlns' && this.svg.getAttribute(name) !== value) this.svg.setAttribute(name, value);
  }
}

/** Marks what was added to a drawing and stays with it, whatever is drawn. */
export const ADDED = 'data-added';
