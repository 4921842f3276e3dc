import { openSession, type FromCompanion, type Judged, type Pushed } from '@loomwright/engine';
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { attend, nameOf, pushOf } from './attend.ts';
import { Hired, hireWorker, type Hire } from './hired.ts';
import { newest } from './steps.ts';

const example = (name: string): string =>
  readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), 'utf8')
    // Without sizes that are searched for.
    .replaceAll('size: auto', 'size: 25 mm2');
const [text, other] = [example('beekeepers-van'), example('delivery-van')];

const none = (): void => undefined;

/** Companions on this thread, whose messages are cloned and come later. */
function here() {
  const seen = { said: 0, rehearsed: 0, started: 0, ended: 0, fail: none, ready: none };
  const ready = new Promise<void>((done) => {
    seen.ready = done;
  });
  const mute = new Set<Pushed>();
  const hire: Hire = (push, hear, fail) => {
    seen.started += 1;
    seen.fail = fail;
    const take = attend(push, (message: FromCompanion) => {
      if (mute.has(push)) return;
      const sent = structuredClone(message);
      setTimeout(() => {
        hear(sent);
        if ('said' in sent) seen.said += 1;
        if ('rehearsed' in sent) seen.rehearsed += 1;
        if (seen.rehearsed === 2) seen.ready();
      }, 0);
    });
    return {
      post(message) {
        const sent = structuredClone(message);
        setTimeout(() => take(sent), 0);
      },
      end() {
        seen.ended += 1;
      },
    };
  };
  return { hire, ready, seen, mute };
}

async function judged(of: string, hired: Hired): Promise<Judged | null> {
  const follows = {
    step: () => undefined,
    stretch: () => undefined,
    wait: async () => await hired.wait(),
  };
  return await newest(of, openSession(of).judging(hired.about(of)), follows);
}

const alone = (of: string): Judged['findings'] => openSession(of).judge().findings;

describe('the companions of a worker that judges', () => {
  afterEach(() => vi.useRealTimers());

  it('are started once a build was judged and all is calm, and asked once they are ready', async () => {
    const { hire, ready, seen } = here();
    const hired = new Hired(hire);
    expect(hired.about(text)).toBeNull();
    expect(seen.started).toBe(0);
    hired.judged(text);
    await ready;
    expect(seen.started).toBe(2);
    for (const of of [text, other, text]) {
      const before = seen.said;
      // oxlint-disable-next-line no-await-in-loop -- one after the other
      const { findings } = (await judged(of, hired)) ?? { findings: [] };
      expect(findings).toEqual(alone(of));
      expect(seen.said).toBeGreaterThan(before);
      hired.judged(of);
    }
    expect(seen.started).toBe(2);
  });

  it('are left for a newer text, and when they are sent away', async () => {
    const { hire, ready } = here();
    const hired = new Hired(hire);
    hired.judged(text);
    await ready;
    const first = judged(text, hired);
    const second = judged(other, hired);
    expect(await first).toBeNull();
    expect((await second)?.findings).toEqual(alone(other));
    const company = hired.about(text);
    expect(company?.gone).toBe(false);
    hired.leave();
    expect(company?.gone).toBe(true);
  });

  it('are given up where one is silent or fails, and replaced, but not for ever', async () => {
    const { hire, ready, seen, mute } = here();
    const hired = new Hired(hire);
    hired.judged(text);
    await ready;
    mute.add('stiff');
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const company = hired.about(other);
    const waiting = hired.wait();
    expect(company?.gone).toBe(false);
    vi.runOnlyPendingTimers();
    await waiting;
    expect(company?.gone).toBe(true);
    expect(hired.about(other)?.gone ?? true).toBe(true);
    for (let starts = 1; starts < 6; starts += 1) {
      hired.judged(other);
      vi.runOnlyPendingTimers();
      seen.fail();
    }
    expect(seen.started).toBe(6);
    expect(seen.ended).toBe(6);
    vi.useRealTimers();
    expect((await judged(other, hired))?.findings).toEqual(alone(other));
  });

  it('are not hired where there are no workers', () => {
    expect(
      hireWorker(
        'slack',
        () => undefined,
        () => undefined,
      ),
    ).toBeNull();
    const hired = new Hired(() => null);
    vi.useFakeTimers();
    hired.judged(text);
    vi.runAllTimers();
    expect(hired.about(text)?.gone ?? true).toBe(true);
  });

  it('are known by their names', () => {
    expect([nameOf('slack'), nameOf('stiff')].map(pushOf)).toEqual(['slack', 'stiff']);
    expect(pushOf('engine')).toBeNull();
  });
});
