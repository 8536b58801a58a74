import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Asker } from '../access/asker.ts';
import { createLiveHub, type Listener, type LiveHub, usualLiveTimes } from './hub.ts';

const viewer = { kind: 'person', person: { role: 'viewer' }, sessionHash: 'h' } as unknown as Asker;
let hub: LiveHub;
afterEach(() => {
  hub.close();
  vi.useRealTimers();
});

function listener(change: Partial<Listener> = {}) {
  const texts: string[] = [];
  const made = {
    yardId: 'yard',
    asker: viewer,
    texts,
    closed: false,
    write: (text: string) => texts.push(text) > 0,
    close: () => {
      made.closed = true;
    },
    askAgain: async () => viewer,
    tick: async () => ({ nowMs: 1, dataMs: null }),
    ...change,
  };
  return made;
}

describe('the hub of live screens', () => {
  it('sends a comment every fifteen seconds and a tick every five, so that silence means lost', async () => {
    vi.useFakeTimers();
    hub = createLiveHub('run', () => {});
    const screen = listener();
    hub.listen(screen, null);
    await vi.advanceTimersByTimeAsync(60_000);
    expect(screen.texts.filter((text) => text.startsWith(':'))).toHaveLength(4);
    expect(screen.texts.filter((text) => text.startsWith('event: tick'))).toHaveLength(13);
  });

  it('sends no tick when the stores do not answer: the screen must say that it is not live', async () => {
    vi.useFakeTimers();
    hub = createLiveHub('run', () => {});
    const screen = listener({ tick: () => Promise.reject(new Error('store away')) });
    hub.listen(screen, null);
    await vi.advanceTimersByTimeAsync(60_000);
    expect(screen.texts.join('')).not.toContain('tick');
    expect(screen.closed).toBe(false);
  });

  it('cuts off a screen that does not read, and no other', async () => {
    hub = createLiveHub('run', () => {});
    const [stuck, fine] = [listener({ write: () => false }), listener()];
    hub.listen(stuck, null);
    hub.listen(fine, null);
    hub.announce([{ kind: 'yard', yardId: 'yard' }]);
    hub.flush();
    expect([stuck.closed, fine.closed, hub.count()]).toEqual([true, false, 1]);
  });

  it('tells each yard its own changes only, with ids that do not even count those of another', () => {
    hub = createLiveHub('run', () => {});
    const [own, other] = [listener(), listener({ yardId: 'other' })];
    hub.listen(own, null);
    hub.listen(other, null);
    const [before] = [other.texts.length];
    hub.announce([
      { kind: 'pile', pileId: 'same-name', yardId: 'yard' },
      { kind: 'alarm', alarmId: 'a', yardId: 'yard' },
    ]);
    hub.flush();
    expect(own.texts.slice(-2).join('')).toMatch(/id: run-1\n[\s\S]*same-name[\s\S]*id: run-2/);
    expect(other.texts).toHaveLength(before);
    hub.announce([
      { kind: 'pile', pileId: 'same-name', yardId: 'other' },
      { kind: 'pile', pileId: 'same-name', yardId: 'yard' },
    ]);
    hub.flush();
    expect(other.texts.at(-1)).toContain('id: run-1\n');
    expect(own.texts.at(-1)).toContain('id: run-3\n');
    const late = listener({ yardId: 'other' });
    hub.listen(late, 'run-0');
    expect(late.texts.join('')).toContain('same-name');
    expect(late.texts.join('')).not.toMatch(/"alarm"/);
  });

  it('tells every yard of a message of which it is not known whose it was', () => {
    hub = createLiveHub('run', () => {});
    const keeper = { ...viewer, person: { role: 'keeper' } } as unknown as Asker;
    const screens = ['yard', 'other'].map((yardId) => listener({ yardId, asker: keeper }));
    for (const screen of screens) hub.listen(screen, null);
    hub.announce([{ kind: 'messages', yardId: null }]);
    hub.flush();
    for (const { texts } of screens) expect(texts.at(-1)).toContain('{"kind":"messages","id":null}');
  });

  it('notices at the next heartbeat that a session has run out', async () => {
    vi.useFakeTimers();
    hub = createLiveHub('run', () => {});
    const screen = listener({ askAgain: async () => ({ kind: 'none' }) });
    hub.listen(screen, null);
    await vi.advanceTimersByTimeAsync(15_000);
    expect(screen.closed).toBe(true);
    expect(screen.texts.at(-1)).toContain('event: end');
  });

  it('keeps a listener whose store is briefly away, and takes no more than it may', async () => {
    hub = createLiveHub('run', () => {}, { ...usualLiveTimes, mostListeners: 1 });
    hub.listen(listener({ askAgain: () => Promise.reject(new Error('busy')) }), null);
    await hub.recheck();
    expect([hub.count(), hub.isFull()]).toEqual([1, true]);
  });
});
