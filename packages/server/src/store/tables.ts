/** The tables, as the query builder knows them. Times are ISO 8601 in UTC; ids are text. */
import type { Generated } from 'kysely';

export interface MigrationTable {
  number: number;
  name: string;
  at: string;
}

export interface BuildTable {
  id: string;
  /** What the workshop calls it; null: the title in the document. */
  name: string | null;
  /** Number of the newest revision. */
  head: number;
  created: string;
  archived: string | null;
  copied_from: string | null;
  copied_revision: number | null;
}

/** Append-only: the database itself refuses to change or delete a row. */
export interface RevisionTable {
  build_id: string;
  /** 1, 2, 3, ... without gaps. */
  number: number;
  text: string;
  /** Of the text in UTF-8. */
  sha256: string;
  /** As the document says; the last readable one where this one is unreadable. */
  title: string;
  /** Errors of the document; 0: a build, else a draft. */
  faults: number;
  who: string;
  why: string;
  saved: string;
  /** Made by the one who saves; the same for every try. */
  save_id: string;
}

/** What happened to a build besides being saved. */
export interface EventTable {
  sequence: Generated<number>;
  build_id: string;
  at: string;
  who: string;
  why: string;
  what: string;
  detail: string;
}

export interface ShelfItemTable {
  id: string;
  kind: string;
  head: number;
  created: string;
  archived: string | null;
}

export interface ShelfRevisionTable {
  item_id: string;
  number: number;
  name: string;
  /** JSON. */
  data: string;
  who: string;
  why: string;
  saved: string;
  save_id: string;
}

export interface PhotoTable {
  sha256: string;
  type: string;
  bytes: number;
  width: number;
  height: number;
  created: string;
}

export interface PhotoUseTable {
  id: string;
  build_id: string;
  sha256: string;
  /** `place` or `part`, with its id in the build. */
  on_kind: string;
  on_id: string;
  caption: string;
  who: string;
  added: string;
  removed: string | null;
  save_id: string;
}

export interface DrawingOrderTable {
  build_id: string;
  /** JSON. */
  data: string;
}

export interface Tables {
  migration: MigrationTable;
  build: BuildTable;
  revision: RevisionTable;
  event: EventTable;
  shelf_item: ShelfItemTable;
  shelf_revision: ShelfRevisionTable;
  photo: PhotoTable;
  photo_use: PhotoUseTable;
  drawing_order: DrawingOrderTable;
}
