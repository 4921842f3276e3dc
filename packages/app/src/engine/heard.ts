/** In the window: the findings that a judging desk has told of so far; what it tells is what differs from them. */
import type { Finding, JudgedPart, JudgedView, JudgedWhole } from './plain.ts';
import type { StartedDesk } from './start-desk.ts';

export class Heard {
  #known = new Map<string, Finding>();
  readonly #listener: (text: string, findings: readonly Finding[]) => void;

  /** `listener` hears what was judged of a text, as it comes. */
  constructor(listener: (text: string, findings: readonly Finding[]) => void) {
    this.#listener = listener;
  }

  /** Nothing was told yet. */
  get afresh(): boolean {
    return this.#known.size === 0;
  }

  /** A desk was started: it has told nothing. */
  begin(desk: StartedDesk): void {
    const known = new Map<string, Finding>();
    this.#known = known;
    desk.hear(({ text, changed, same }: JudgedPart) => {
      for (const finding of changed) known.set(finding.id, finding);
      this.#listener(text, [...changed, ...same.map((id) => this.#of(known, id))]);
    });
  }

  /** The last word on a text. */
  whole({ order, changed, ...rest }: JudgedWhole): JudgedView {
    for (const finding of changed) this.#known.set(finding.id, finding);
    const findings = order.map((id) => this.#of(this.#known, id));
    const wanted = new Set(order);
    for (const id of this.#known.keys()) if (!wanted.has(id)) this.#known.delete(id);
    return { ...rest, findings };
  }

  #of(known: ReadonlyMap<string, Finding>, id: string): Finding {
    const finding = known.get(id);
    if (finding === undefined) throw new Error(`nothing was told of ${id}`);
    return finding;
  }
}
