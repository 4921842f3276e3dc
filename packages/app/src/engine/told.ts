/** In the worker: what was told of findings, so that only what differs is told again. */
import type { Finding } from '@loomwright/engine';

export class Told {
  readonly #known = new Map<string, Finding>();

  /** Nothing counts as told any more. */
  forget(): void {
    this.#known.clear();
  }

  /** Takes findings as told; returns those that were not yet, as they are. */
  news(findings: readonly Finding[]): readonly Finding[] {
    return findings.filter((finding) => {
      const before = this.#known.get(finding.id);
      if (before !== undefined && alike(before, finding)) return false;
      this.#known.set(finding.id, finding);
      return true;
    });
  }

  /** Whether its verdict is another one than was told of it. */
  turns({ id, verdict }: Finding): boolean {
    const before = this.#known.get(id);
    return before !== undefined && before.verdict !== verdict;
  }

  /** Forgets what is in no list of findings any more. */
  keepOnly(ids: ReadonlySet<string>): void {
    for (const id of this.#known.keys()) if (!ids.has(id)) this.#known.delete(id);
  }
}

/** Equal as data. */
export function alike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [mine, theirs] = [Object.keys(a), Object.keys(b)];
  return (
    mine.length === theirs.length &&
    mine.every((key) => key in b && alike(a[key as keyof typeof a], b[key as keyof typeof b]))
  );
}
