import { expect, test } from 'vitest';
import { replayPast } from '../rules/replay.ts';
import { pastOf } from '../rules/testing/testPast.ts';
import { course, hourMs, merged, placed, startMs, testFacts, wrote } from '../rules/testing/testPile.ts';
import { decodePast, encodePast } from './past.ts';

const facts = testFacts({
  channels: [placed('a'), placed('b'), placed('air', 'air')],
  journal: [{ ...wrote('watered', 5), note: 'Regen – 20 l' }],
});
const core = course('a', 0, 50, (hours) => 60 + hours / 4).map((sample, index) =>
  index % 7 === 0 ? ({ ...sample, quality: 'suspect', reason: 'outlier' } as const) : sample,
);
const past = {
  ...pastOf(
    facts,
    merged(
      core,
      course('b', 0, 50, () => 55.123, 7),
    ),
    startMs + 50 * hourMs,
  ),
  hoursBefore: [{ startMs: startMs - hourMs, core: null, means: [{ placementId: 'a', mean: 20.5 }] }],
};
const limits = { version: 4, overrides: { 'too-hot-ceiling': { limitCelsius: 68 } } };

test('a past comes back from its bytes as it was, whatever the lengths of its columns', () => {
  const { buffer } = encodePast({ past, limits, temperatureUnit: 'F' });
  const back = decodePast(buffer);
  expect([back.limits, back.temperatureUnit]).toEqual([limits, 'F']);
  expect(back.past).toEqual(past);
  expect(back.past.channels.map(({ timesMs }) => timesMs.length)).toEqual([600, 429, 0]);
  expect(replayPast(back.past, back.limits)).toEqual(replayPast(past, limits));
});

test('bytes cut short are refused, not read as a shorter past', () => {
  const { buffer } = encodePast({ past, limits, temperatureUnit: 'C' });
  expect(() => decodePast(buffer.slice(0, buffer.byteLength - 64))).toThrow(RangeError);
});
