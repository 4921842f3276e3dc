import { describe, expect, it } from 'vitest';
import { buildText, freshApp, nextSaveId, type Ask } from '../testing/store.ts';

const order = (...nodes: string[]) => ({
  version: 1,
  views: { all: { screen: { nodes, sides: { [nodes[0] ?? 'a']: { west: [], east: ['w1'] } } } } },
});

async function made(ask: Ask): Promise<string> {
  const body = { saveId: nextSaveId(), text: buildText() };
  return (await ask('POST', '/api/builds', body)).json.build.id as string;
}

const at = (id: string): string => `/api/builds/${id}/drawing-order`;

describe('order of a drawing', () => {
  it('is kept with the build, the last one told stands, and no revision is made of it', async () => {
    const { ask } = await freshApp();
    const id = await made(ask);
    expect((await ask('GET', at(id))).json).toEqual({ order: null });
    for (const told of [order('a', 'b'), order('b', 'a')]) {
      expect((await ask('PUT', at(id), { order: told })).status).toBe(200);
      expect((await ask('GET', at(id))).json).toEqual({ order: told });
    }
    expect((await ask('GET', `/api/builds/${id}`)).json.build.head).toBe(1);
  });

  it('goes into a copy', async () => {
    const { ask } = await freshApp();
    const id = await made(ask);
    await ask('PUT', at(id), { order: order('b', 'a') });
    const copy = await ask('POST', `/api/builds/${id}/copy`, { saveId: nextSaveId() });
    expect((await ask('GET', at(copy.json.build.id))).json).toEqual({ order: order('b', 'a') });
  });

  it.each([
    ['another version', { order: { version: 2, views: {} } }, 400],
    ['more beside it', { order: { version: 1, views: {}, at: [1, 2] } }, 400],
    ['no order', { order: null }, 400],
    ['a list', { order: [] }, 400],
    ['a long one', { order: { version: 1, views: { all: 'x'.repeat(600_000) } } }, 413],
  ])('refuses %s', async (_name, body, status) => {
    const { ask } = await freshApp();
    const id = await made(ask);
    expect((await ask('PUT', at(id), body)).status).toBe(status);
    expect((await ask('GET', at(id))).json).toEqual({ order: null });
  });

  it('of a build that is not there is not found', async () => {
    const { ask } = await freshApp();
    expect((await ask('GET', at('nothing-here'))).status).toBe(404);
    expect((await ask('PUT', at('nothing-here'), { order: order('a') })).status).toBe(404);
  });
});
