import { describe, expect, it } from 'vitest';
import { freshApp, nextSaveId } from '../testing/store.ts';

const PART = { kind: 'part', name: 'Our 40 A charger', data: { kind: 'dc-charger', current: '40 A' } };

describe('the shelf', () => {
  it('keeps items of each kind with their revisions', async () => {
    const { ask } = await freshApp();
    const made = await ask('POST', '/api/shelf', {
      saveId: nextSaveId(),
      ...PART,
      who: 'Ada',
      why: 'fits most vans',
    });
    expect(made.status).toBe(201);
    const { id } = made.json.item;
    for (const kind of ['vehicle', 'stock', 'table'])
      await ask('POST', '/api/shelf', {
        saveId: nextSaveId(),
        kind,
        name: kind,
        data: { a: [1, null, 'x'] },
      });
    expect((await ask('GET', '/api/shelf')).json.items).toHaveLength(4);
    expect((await ask('GET', '/api/shelf?kind=part')).json.items).toEqual([made.json.item]);
    const data = { ...PART.data, efficiency: 0.9 };
    const body = { saveId: nextSaveId(), base: 1, name: PART.name, data, who: 'Bo' };
    const saved = await ask('POST', `/api/shelf/${id}/revisions`, body);
    expect(saved.json.item).toMatchObject({ head: 2, data, who: 'Bo' });
    const { revisions } = (await ask('GET', `/api/shelf/${id}/revisions`)).json;
    expect(revisions.map((r: { number: number; data: unknown }) => [r.number, r.data])).toEqual([
      [2, data],
      [1, PART.data],
    ]);
  });

  it('refuses a stale save with both versions, and saves once however often it is tried', async () => {
    const { ask } = await freshApp();
    const first = { saveId: nextSaveId(), ...PART };
    const { id } = (await ask('POST', '/api/shelf', first)).json.item;
    expect((await ask('POST', '/api/shelf', first)).json).toMatchObject({ replayed: true, item: { id } });
    const url = `/api/shelf/${id}/revisions`;
    const theirs = { saveId: nextSaveId(), base: 1, name: 'Theirs', data: { a: 1 } };
    await ask('POST', url, theirs);
    expect((await ask('POST', url, theirs)).json).toMatchObject({ replayed: true, item: { head: 2 } });
    const mine = { saveId: nextSaveId(), base: 1, name: 'Mine', data: { a: 2 } };
    const refused = await ask('POST', url, mine);
    expect([refused.status, refused.json.code]).toEqual([409, 'stale-revision']);
    expect(refused.json).toMatchObject({ theirs: { name: 'Theirs', data: { a: 1 }, head: 2 }, yours: mine });
  });

  it('archives instead of deleting, and refuses other kinds and sizes', async () => {
    const { ask } = await freshApp();
    const { id } = (await ask('POST', '/api/shelf', { saveId: nextSaveId(), ...PART })).json.item;
    await ask('PATCH', `/api/shelf/${id}`, { archived: true });
    expect((await ask('GET', '/api/shelf')).json.items).toEqual([]);
    expect((await ask('GET', '/api/shelf?archived=yes')).json.items).toHaveLength(1);
    expect((await ask('DELETE', `/api/shelf/${id}`)).status).toBe(404);
    const bad = [
      { ...PART, kind: 'customer' },
      { ...PART, data: 'text' },
      { ...PART, data: { big: 'x'.repeat(257 * 1024) } },
      { ...PART, name: '  ' },
    ];
    for (const body of bad)
      expect((await ask('POST', '/api/shelf', { saveId: nextSaveId(), ...body })).status).toBe(400);
  });
});
