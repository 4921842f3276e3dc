/** A published table, transcribed row by row. */
export interface Table<R> {
  readonly title: string;
  /** Standard, clause or table number, edition; how it was read where it was not the original. */
  readonly source: string;
  readonly note?: string;
  readonly rows: readonly R[];
}
