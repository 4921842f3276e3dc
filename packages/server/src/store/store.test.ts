import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sql } from 'kysely';
import { describe as describeText } from '../document.ts';
import { buildText, freshFolder, freshStore, nextSaveId } from '../testing/store.ts';
import { faultOf } from '../faults.ts';
import { createBuild, listBuilds, readBuild } from './builds.ts';
import { openSqlite } from './driver.ts';
import { migrations, versionOf } from './migrate.ts';
import { openStore, STORE_FILE, type Store } from './open.ts';
import { proveStore } from './prove.ts';
import { saveRevision } from './saving.ts';

const saving = (text: string) => {
  const { title, errors } = describeText(text);
  return { saveId: nextSaveId(), text, title, faults: errors, who: 'Ada', why: '' };
};
const create = { id: null, name: null };

/** The statements that made a database's tables, indexes and triggers. */
const shapes = (path: string): string[] => {
  const sqlite = openSqlite(path);
  const rows = sqlite
    .prepare(
      "select name, sql from sqlite_master where sql is not null and name not like 'sqlite_%' order by name",
    )
    .all();
  sqlite.close();
  return rows.map((row) =>
    (row as { sql: string }).sql.replace(/\s+/g, ' ').replaceAll(' if not exists', ''),
  );
};

const big = (n: number): string => `${buildText(`R${n}`)}# ${'x'.repeat(20_000)}\n`;

describe('opening a store', () => {
  it('makes all tables from an empty folder, with a write-ahead log and full sync', async () => {
    const store = await freshStore();
    expect(await versionOf(store.db)).toBe(migrations.length);
    expect(migrations.map((step) => step.number)).toEqual(migrations.map((_, index) => index + 1));
    const one = async (pragma: string) =>
      Object.values(
        (await sql.raw<Record<string, unknown>>(`pragma ${pragma}`).execute(store.db)).rows[0] ?? {},
      )[0];
    expect([await one('journal_mode'), await one('synchronous'), await one('foreign_keys')]).toEqual([
      'wal',
      2,
      1,
    ]);
  });

  it('brings a store of version 1 up to date, keeps what is in it, and a copy of how it was', async () => {
    const folder = freshFolder();
    // As the first version made it: written out here, so that a later change of the first step would be seen.
    const old = openSqlite(join(folder, STORE_FILE));
    old.exec(VERSION_1);
    old.close();
    const store = await freshStore({}, folder);
    expect(await versionOf(store.db)).toBe(migrations.length);
    const { builds } = await listBuilds(store, { archived: 'all', search: '', limit: 10 });
    expect(builds).toMatchObject([{ id: 'old-build', title: 'Old', head: 1, who: 'Ada' }]);
    expect((await readBuild(store, 'old-build')).revision.text).toBe('loomwright: 1\ntitle: Old\n');
    await saveRevision(store, 'old-build', 1, saving(buildText('New')));
    await proveStore(store);
    const copy = openSqlite(join(folder, 'store-before-step-2.sqlite'));
    expect({ ...(copy.prepare('select max(number) as n from migration').get() as object) }).toEqual({ n: 1 });
    copy.close();
  });

  it('makes with its first step exactly the tables of version 1', async () => {
    const [now, then] = [freshFolder(), freshFolder()];
    const store = await openStore(now, { until: 1 });
    await store.close();
    const old = openSqlite(join(then, STORE_FILE));
    old.exec(VERSION_1);
    old.close();
    expect(shapes(join(now, STORE_FILE))).toEqual(shapes(join(then, STORE_FILE)));
  });

  it('leaves nothing behind of a step that fails half-way', async () => {
    const folder = freshFolder();
    const sqlite = openSqlite(join(folder, STORE_FILE));
    sqlite.exec(VERSION_1);
    // In the way of the second table of step 2.
    sqlite.exec('create table shelf_revision (x)');
    sqlite.close();
    await expect(openStore(folder)).rejects.toThrow('shelf_revision');
    const after = openSqlite(join(folder, STORE_FILE));
    const tables = after.prepare("select name from sqlite_master where name = 'shelf_item'").all();
    expect(tables).toEqual([]);
    expect({ ...(after.prepare('select max(number) as n from migration').get() as object) }).toEqual({
      n: 1,
    });
    after.exec('drop table shelf_revision');
    after.close();
    const store = await freshStore({}, folder);
    expect(await versionOf(store.db)).toBe(migrations.length);
  });

  it('refuses a store of a newer version, another program’s database, and a file that is none', async () => {
    const folder = freshFolder();
    await (await openStore(folder)).close();
    const sqlite = openSqlite(join(folder, STORE_FILE));
    sqlite.exec("insert into migration values (99, 'future', '2099-01-01T00:00:00.000Z')");
    sqlite.close();
    await expect(openStore(folder)).rejects.toMatchObject({ words: { code: 'newer-store' } });
    const foreign = freshFolder();
    const other = openSqlite(join(foreign, STORE_FILE));
    other.exec('create table customer (x)');
    other.close();
    await expect(openStore(foreign)).rejects.toMatchObject({ words: { code: 'folder-refused' } });
    const damaged = freshFolder();
    writeFileSync(join(damaged, STORE_FILE), 'x'.repeat(5000));
    await expect(openStore(damaged)).rejects.toMatchObject({ words: { code: 'store-damaged' } });
    const file = join(freshFolder(), 'file');
    writeFileSync(file, '');
    await expect(openStore(join(file, 'below'))).rejects.toMatchObject({ words: { code: 'folder-refused' } });
  });

  it('is for one program at a time, and free again after it', async () => {
    const folder = freshFolder();
    const first = await openStore(folder);
    await expect(openStore(folder)).rejects.toMatchObject({ words: { code: 'already-served' } });
    await first.close();
    await (await openStore(folder)).close();
  });
});

describe('what is saved', () => {
  it('cannot be changed or deleted even by the program itself', async () => {
    const store = await freshStore();
    await createBuild(store, { ...create, ...saving(buildText()) });
    for (const deed of ["update revision set text = ''", 'delete from revision'])
      await expect(sql.raw(deed).execute(store.db)).rejects.toThrow('append-only');
    await proveStore(store);
  });

  it('comes back exactly: line ends, marks, characters beyond the basic plane', async () => {
    const store = await freshStore();
    for (const text of [
      '\uFEFFloomwright: 1\r\n# 𝄞 ü \u2028 \t \u007f "\'\\ ﷐\r\n\r\n',
      `loomwright: 1\n#${'é'.repeat(400_000)}`,
    ]) {
      const { build } = await createBuild(store, { ...create, ...saving(text) });
      expect((await readBuild(store, build.id)).revision.text === text).toBe(true);
    }
  });
});

/** Saves until it is refused. */
async function fill(store: Store, id: string): Promise<{ head: number; problem: unknown }> {
  for (let head = 1; head < 100; head += 1) {
    const problem = await saveRevision(store, id, head, saving(big(head))).then(
      () => null,
      (error: unknown) => error,
    );
    if (problem !== null) return { head, problem };
  }
  throw new Error('the disk did not fill up');
}

describe('a full disk', () => {
  it('is told in plain words; what was saved stays, and saving goes on when there is room', async () => {
    const store = await freshStore({ mostPages: 60 });
    const { build } = await createBuild(store, { ...create, ...saving(buildText()) });
    const { head, problem } = await fill(store, build.id);
    expect(faultOf(problem)?.words).toMatchObject({
      code: 'disk-full',
      status: 507,
      title: 'Not saved. Disk full.',
    });
    expect((await readBuild(store, build.id)).build.head).toBe(head);
    await proveStore(store);
    await sql.raw('pragma max_page_count = 1000').execute(store.db);
    expect((await saveRevision(store, build.id, head, saving(big(head)))).build.head).toBe(head + 1);
    await proveStore(store);
    expect(readdirSync(store.folder)).toContain(STORE_FILE);
  });
});

const VERSION_1 = `
PRAGMA application_id = 1282371437;
create table "migration" ("number" integer primary key, "name" text not null, "at" text not null);
create table "build" ("id" text primary key, "name" text, "head" integer not null, "created" text not null, "archived" text, "copied_from" text, "copied_revision" integer);
create table "revision" ("build_id" text not null references "build" ("id"), "number" integer not null, "text" text not null, "sha256" text not null, "title" text not null, "faults" integer not null, "who" text not null, "why" text not null, "saved" text not null, "save_id" text not null unique, constraint "revision_key" primary key ("build_id", "number"));
create trigger "revision_no_update" before update on "revision" begin select raise(abort, 'append-only'); end;
create trigger "revision_no_delete" before delete on "revision" begin select raise(abort, 'append-only'); end;
create table "event" ("sequence" integer primary key autoincrement, "build_id" text not null references "build" ("id"), "at" text not null, "who" text not null, "why" text not null, "what" text not null, "detail" text not null);
create index "event_of_build" on "event" ("build_id");
create trigger "event_no_update" before update on "event" begin select raise(abort, 'append-only'); end;
create trigger "event_no_delete" before delete on "event" begin select raise(abort, 'append-only'); end;
insert into migration values (1, 'builds', '2026-11-01T08:00:00.000Z');
insert into build values ('old-build', null, 1, '2026-11-01T08:00:00.000Z', null, null, null);
insert into revision values ('old-build', 1, 'loomwright: 1
title: Old
', 'dcf696fe2b44613ea16e30984707e4d58b593b8eed6dab3e714910bdc231bfbc', 'Old', 0, 'Ada', 'first', '2026-11-01T08:00:00.000Z', 'save-of-old');
`;
