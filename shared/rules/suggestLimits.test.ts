import { describe, expect, test } from 'vitest';
import { replayPast } from './replay.ts';
import { warningOf } from './replayReport.ts';
import { safeBounds } from './suggestBounds.ts';
import { suggestLimits } from './suggestLimits.ts';
import { suggestionWords } from './suggestWords.ts';
import { ceilingLimits, pastOf } from './testing/testPast.ts';
import { course, defaultLimits, hourMs, startMs, testFacts } from './testing/testPile.ts';

const options = { temperatureUnit: 'C', textsFrom: 'medium' } as const;
const day = 24 * hourMs;

/**
 * Ten days at 66 C that touch 71.3 C for a quarter of an hour every nine hours, too seldom for the guard against chatter
 * and too often for that against the day's warmth, and once climb to 75 C for six hours.
 */
function touchy(hours: number): number {
  if (hours >= 180 && hours < 186) return 71.2 + 3.8 * Math.sin((Math.PI * (hours - 180)) / 6);
  return hours % 9 >= 4 && hours % 9 < 4.3 ? 71.3 : 66;
}
const past = pastOf(testFacts(), course('a', 0, 240, touchy, 5), startMs + 10 * day);
const nervous = ceilingLimits({ onDelayMinutes: 0, offDelayMinutes: 0, deadbandCelsius: 0.5 });

describe('suggested limits', () => {
  const found = suggestLimits(past, nervous, 'too-hot-ceiling', options);

  test('save texts and lose no more warning than allowed, as a full replay confirms', () => {
    if (found.kind !== 'change') throw new Error(found.says);
    const texts = (limits: typeof nervous) =>
      replayPast(past, limits).texts.filter(({ condition }) => condition === 'too-hot-ceiling').length;
    expect([found.before, texts(nervous)]).toEqual([texts(nervous), found.before]);
    expect(found.before).toBeGreaterThan(8);
    expect(found.after).toBe(1);
    expect(texts({ version: 2, overrides: { 'too-hot-ceiling': found.overrides } as never })).toBe(1);
    expect(found.warningLostMinutes).toBeLessThanOrEqual(60);
  });

  test('are said in plain words with their price', () => {
    expect(found.says).toMatch(
      /^With .*on-delay \d+ min.* you would have had 1 text, not \d+, in 10 days, and /,
    );
    expect(
      suggestionWords(
        {
          ...{ changed: { deadbandCelsius: 1.5, onDelayMinutes: 30 }, before: 9, after: 2 },
          ...{ counts: 'texts', days: 40, lostMinutes: 20 },
        },
        'C',
      ),
    ).toBe(
      'With deadband 1.5 C and on-delay 30 min you would have had 2 texts, not 9, in 40 days, and lost 20 min of warning.',
    );
    expect(
      suggestionWords(
        { changed: { limitCelsius: 70 }, before: 3, after: 1, counts: 'notices', days: 8, lostMinutes: 0 },
        'F',
      ),
    ).toBe('With limit 158 F you would have had 1 notice, not 3, in 8 days, and lost no warning.');
  });

  test('never go beyond what is safe, wherever the search starts', () => {
    for (const limitCelsius of [66, 71, 77]) {
      const limits = ceilingLimits({ onDelayMinutes: 0, offDelayMinutes: 0, limitCelsius });
      const one = suggestLimits(past, limits, 'too-hot-ceiling', {
        ...options,
        mostWarningLostMinutes: 9999,
      });
      if (one.kind === 'none') continue;
      expect(one.change.limitCelsius ?? 0).toBeLessThanOrEqual(71);
      expect(one.change.onDelayMinutes ?? 0).toBeLessThanOrEqual(60);
    }
    expect(safeBounds('too-hot-ceiling', {} as never)!.limit!.maximum).toBe(71);
  });

  test('say nothing of fire danger', () => {
    expect(suggestLimits(past, nervous, 'too-hot-fire-danger', options)).toMatchObject({
      ...{ kind: 'none', why: 'never-suggested' },
    });
  });

  test('say when the past is too short to tell', () => {
    const short = pastOf(testFacts(), course('a', 0, 60, touchy, 5), startMs + 60 * hourMs);
    const none = suggestLimits(short, nervous, 'too-hot-ceiling', options);
    expect(none).toMatchObject({ kind: 'none', why: 'too-short' });
    expect(none.says).toMatch(/Only 2 days of readings: at least 7/);
  });

  test('never miss a trouble people marked, however short it was', () => {
    const touches = Array.from({ length: 9 }, (_, index) => startMs + (9 * index + 4) * hourMs);
    const troubles = touches.map((atMs) => ({
      ...{ name: 'steam', startMs: atMs, endMs: atMs + 0.3 * hourMs, warnedBy: ['too-hot-ceiling'] as const },
    }));
    const one = suggestLimits(past, nervous, 'too-hot-ceiling', { ...options, troubles });
    const overrides = one.kind === 'change' ? one.overrides : nervous.overrides['too-hot-ceiling']!;
    const { alarms } = replayPast(past, { version: 2, overrides: { 'too-hot-ceiling': overrides } });
    const caught = troubles.filter((trouble) => warningOf({ alarms }, trouble).minutesBefore !== null);
    expect(caught.length).toBe(9);
  });

  test('leave alone what is quiet, and what only calmer limits with less warning would quieten', () => {
    const quiet = pastOf(
      testFacts(),
      course('a', 0, 240, () => 60),
      startMs + 10 * day,
    );
    expect(suggestLimits(quiet, defaultLimits, 'too-hot-ceiling', options).says).toMatch(
      /no texts in 10 days/,
    );
    // Nine separate climbs of three hours: every text was about a real trouble.
    const climbs = (hours: number) => (hours % 24 < 3 ? 74 : 62);
    const real = pastOf(testFacts(), course('a', 0, 216, climbs), startMs + 9 * day);
    const none = suggestLimits(real, ceilingLimits({ onDelayMinutes: 30 }), 'too-hot-ceiling', options);
    expect(none).toMatchObject({ kind: 'none', why: 'nothing-to-gain' });
  });
});
