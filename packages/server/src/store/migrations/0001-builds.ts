/** Builds, their revisions and what happened to them. */
import type { Migration } from '../migrate.ts';
import { appendOnly } from './append-only.ts';

export const builds: Migration = {
  number: 1,
  name: 'builds',
  async up(db, types) {
    await db.schema
      .createTable('build')
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('name', 'text')
      .addColumn('head', 'integer', (c) => c.notNull())
      .addColumn('created', 'text', (c) => c.notNull())
      .addColumn('archived', 'text')
      .addColumn('copied_from', 'text')
      .addColumn('copied_revision', 'integer')
      .execute();
    await db.schema
      .createTable('revision')
      .addColumn('build_id', 'text', (c) => c.notNull().references('build.id'))
      .addColumn('number', 'integer', (c) => c.notNull())
      .addColumn('text', 'text', (c) => c.notNull())
      .addColumn('sha256', 'text', (c) => c.notNull())
      .addColumn('title', 'text', (c) => c.notNull())
      .addColumn('faults', 'integer', (c) => c.notNull())
      .addColumn('who', 'text', (c) => c.notNull())
      .addColumn('why', 'text', (c) => c.notNull())
      .addColumn('saved', 'text', (c) => c.notNull())
      .addColumn('save_id', 'text', (c) => c.notNull().unique())
      .addPrimaryKeyConstraint('revision_key', ['build_id', 'number'])
      .execute();
    await appendOnly(db, 'revision');
    await db.schema
      .createTable('event')
      .addColumn('sequence', types.serial)
      .addColumn('build_id', 'text', (c) => c.notNull().references('build.id'))
      .addColumn('at', 'text', (c) => c.notNull())
      .addColumn('who', 'text', (c) => c.notNull())
      .addColumn('why', 'text', (c) => c.notNull())
      .addColumn('what', 'text', (c) => c.notNull())
      .addColumn('detail', 'text', (c) => c.notNull())
      .execute();
    await db.schema.createIndex('event_of_build').on('event').column('build_id').execute();
    await appendOnly(db, 'event');
  },
};
