/** The order in which a build's drawing stands: a hint beside the build, no part of its history. */
import type { Migration } from '../migrate.ts';

export const drawingOrder: Migration = {
  number: 4,
  name: 'drawing order',
  async up(db) {
    await db.schema
      .createTable('drawing_order')
      .addColumn('build_id', 'text', (c) => c.primaryKey().references('build.id'))
      .addColumn('data', 'text', (c) => c.notNull())
      .execute();
  },
};
