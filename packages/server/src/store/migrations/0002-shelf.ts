/** The shelf: own parts, surveyed vehicles, stock, confirmed tables. */
import type { Migration } from '../migrate.ts';
import { appendOnly } from './append-only.ts';

export const shelf: Migration = {
  number: 2,
  name: 'shelf',
  async up(db) {
    await db.schema
      .createTable('shelf_item')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('kind', 'text', (c) => c.notNull())
      .addColumn('head', 'integer', (c) => c.notNull())
      .addColumn('created', 'text', (c) => c.notNull())
      .addColumn('archived', 'text')
      .execute();
    await db.schema
      .createTable('shelf_revision')
      .addColumn('item_id', 'text', (c) => c.notNull().references('shelf_item.id'))
      .addColumn('number', 'integer', (c) => c.notNull())
      .addColumn('name', 'text', (c) => c.notNull())
      .addColumn('data', 'text', (c) => c.notNull())
      .addColumn('who', 'text', (c) => c.notNull())
      .addColumn('why', 'text', (c) => c.notNull())
      .addColumn('saved', 'text', (c) => c.notNull())
      .addColumn('save_id', 'text', (c) => c.notNull().unique())
      .addPrimaryKeyConstraint('shelf_revision_key', ['item_id', 'number'])
      .execute();
    await appendOnly(db, 'shelf_revision');
  },
};
