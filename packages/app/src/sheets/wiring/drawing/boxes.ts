/** Room that groups of a drawing take, as the browser measures it, remembered: most groups are what they were before an edit. */
import { markupOf } from './shown.ts';
import { undress } from './worn.ts';

const MOST = 5000;

/**
 * An edit leaves most groups as they are, and draws many of the rest as they were before: those are not asked for again. Asking makes
 * the browser lay out the page at once, so what differs in its words only can be guessed: it takes about the room of those before.
 */
export class Boxes {
  readonly #of = new WeakMap<Element, Map<string, unknown>>();
  readonly #byMarkup = new Map<string, unknown>();
  /** The last of those that differ in their words only. */
  readonly #byFrame = new Map<string, unknown>();
  /** Before the typeface is there words have other widths. */
  #final = false;
  #guess = false;
  #guessed = false;

  /** Begins to measure a drawing. `guess`: what differs in its words only need not be measured. */
  begin(guess: boolean): void {
    this.#final = document.fonts.status === 'loaded';
    [this.#guess, this.#guessed] = [guess, false];
  }

  /** Something was guessed since it began. */
  get guessed(): boolean {
    return this.#guessed;
  }

  /** What `look` finds of a group that wears nothing. `name`: what is asked for; `among`: what else decides what of it is shown. */
  of<T>(group: SVGGraphicsElement, name: string, among: string, look: () => T): T {
    const bare = (): T => {
      undress(group);
      return look();
    };
    if (!this.#final) return bare();
    const key = `${name} ${among}`;
    // A group that is drawn otherwise is another element.
    const own = this.#of.get(group) ?? new Map<string, unknown>();
    if (own.has(key)) return own.get(key) as T;
    const markup = markupOf(group) ?? group.outerHTML;
    const frame = `${key}\n${frameOf(markup)}`;
    const known = this.#byMarkup.get(`${key}\n${markup}`) as T | undefined;
    const near = known === undefined && this.#guess ? (this.#byFrame.get(frame) as T | undefined) : undefined;
    if (near !== undefined) {
      this.#guessed = true;
      return near;
    }
    const made = known ?? bare();
    put(this.#byMarkup, `${key}\n${markup}`, made);
    put(this.#byFrame, frame, made);
    own.set(key, made);
    this.#of.set(group, own);
    return made;
  }
}

function put(map: Map<string, unknown>, key: string, value: unknown): void {
  if (map.size >= MOST) map.clear();
  map.set(key, value);
}

/** Markup without its words. */
const frameOf = (markup: string): string =>
  markup.replaceAll(/>[^<]+</g, '><').replaceAll(/ aria-label="[^"]*"/g, '');
