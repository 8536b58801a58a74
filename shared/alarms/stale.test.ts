import { expect, test } from 'vitest';
import { newAlarm } from './newAlarm.ts';
import { staleAlarms } from './stale.ts';

const hourMs = 3_600_000;
const nowMs = 100 * hourMs;

test('stale is what has stood for more than a day, acknowledged or not; what is hidden or normal is not', () => {
  const base = newAlarm('yard', { kind: 'pile', id: 'cage-2' }, 'too-hot-ceiling');
  const since = (hours: number) => nowMs - hours * hourMs;
  const alarms = [
    { ...base, id: 'day', state: 'acknowledged', activeSinceMs: since(24) },
    { ...base, id: 'more', state: 'acknowledged', activeSinceMs: since(25) },
    { ...base, id: 'latched', state: 'latched-acknowledged', activeSinceMs: since(90) },
    { ...base, id: 'shelved', state: 'shelved', activeSinceMs: since(90) },
    { ...base, id: 'normal', state: 'normal', activeSinceMs: null },
  ] as const;
  expect(staleAlarms(alarms, nowMs).map(({ id }) => id)).toEqual(['latched', 'more']);
});
