/** Photos (their bytes are files named by their SHA-256) and the places and parts they show. */
import type { Migration } from '../migrate.ts';

export const photos: Migration = {
  number: 3,
  name: 'photos',
  async up(db) {
    await db.schema
      .createTable('photo')
      .addColumn('sha256', 'text', (c) => c.primaryKey())
      .addColumn('type', 'text', (c) => c.notNull())
      .addColumn('bytes', 'integer', (c) => c.notNull())
      .addColumn('width', 'integer', (c) => c.notNull())
      .addColumn('height', 'integer', (c) => c.notNull())
      .addColumn('created', 'text', (c) => c.notNull())
      .execute();
    await db.schema
      .createTable('photo_use')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('build_id', 'text', (c) => c.notNull().references('build.id'))
      .addColumn('sha256', 'text', (c) => c.notNull().references('photo.sha256'))
      .addColumn('on_kind', 'text', (c) => c.notNull())
      .addColumn('on_id', 'text', (c) => c.notNull())
      .addColumn('caption', 'text', (c) => c.notNull())
      .addColumn('who', 'text', (c) => c.notNull())
      .addColumn('added', 'text', (c) => c.notNull())
      .addColumn('removed', 'text')
      .addColumn('save_id', 'text', (c) => c.notNull().unique())
      .execute();
    await db.schema.createIndex('photo_use_of_build').on('photo_use').column('build_id').execute();
  },
};
