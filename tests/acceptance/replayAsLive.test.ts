import fc from 'fast-check';
import { expect, test } from 'vitest';
import { settingsOf } from '../../services/rules/options.ts';
import { advancePile, createPileDesk, type PileDesk } from '../../services/rules/pileDesk.ts';
import { dueMessages } from '../../services/rules/texts.ts';
import { defaultDutyPlan } from '../../shared/messages/dutyPlan.ts';
import { builtInWordings } from '../../shared/messages/wordings.ts';
import type { PileLimits, PileSample } from '../../shared/rules/pileSubject.ts';
import { replayPast } from '../../shared/rules/replay.ts';
import { pastOf } from '../../shared/rules/testing/testPast.ts';
import { hourMs, minuteMs, placed, startMs, testFacts, wrote } from '../../shared/rules/testing/testPile.ts';
import type { Person } from '../../shared/yard/people.ts';
import type { Yard } from '../../shared/yard/yard.ts';

/** Limits so near each other that a few random values make every kind of change happen. */
const limits: PileLimits = {
  version: 7,
  overrides: {
    'too-hot-fire-danger': { onDelayMinutes: 5, offDelayMinutes: 20 },
    'too-hot-ceiling': { onDelayMinutes: 10, offDelayMinutes: 15 },
    'too-hot-early-notice': { onDelayMinutes: 20, offDelayMinutes: 10, minimumMinutesBetweenTexts: 240 },
    'too-cold-never-heated': { days: 1, daysInFrost: 1, onDelayMinutes: 30 },
    stalled: { onDelayMinutes: 30, offDelayMinutes: 30, graceHoursAfterWork: 2 },
    'drying-out-measured': { onDelayMinutes: 15, offDelayMinutes: 15, minimumMinutesBetweenTexts: 600 },
  },
};
const facts = testFacts({
  method: 'turned-windrow',
  channels: [placed('a'), placed('b'), placed('air', 'air'), placed('m', 'core', 'moisture')],
  journal: [wrote('built', 0), wrote('watered', 26)],
});
const keeper: Person = {
  ...{ id: 'tobin', yardId: 'gannet-row', login: 'tobin', name: 'Tobin', role: 'keeper' },
  ...{ phone: '+441632960102', receivesTexts: true, textsFrom: 'low', disabled: false, language: 'en' },
};
const yard: Yard = {
  ...{ id: 'gannet-row', name: 'Gannet Row', timeZone: 'UTC', temperatureUnit: 'C', altitudeMetres: 5 },
};

const step = fc.record({
  gapMinutes: fc.oneof(
    { weight: 8, arbitrary: fc.integer({ min: 0, max: 20 }) },
    fc.integer({ min: 50, max: 400 }),
  ),
  channel: fc.constantFrom('a', 'a', 'b', 'air', 'm'),
  celsius: fc.constantFrom(20, 35, 42, 58, 64, 66, 70, 72, 74, 79, 80, 83),
  quality: fc.constantFrom('good', 'good', 'good', 'bad' as const, 'suspect' as const),
  reason: fc.constantFrom('outlier', 'calibration-stale', 'impossible-rate' as const),
});

/** A pile's samples in time order over about two days, some of them at one instant. */
const samplesArbitrary = fc.array(step, { minLength: 1, maxLength: 150 }).map((steps) => {
  let timeMs = startMs + 12 * hourMs;
  const taken = new Set<string>();
  return steps.flatMap(({ gapMinutes, channel, celsius, quality, reason }): PileSample[] => {
    timeMs += gapMinutes * minuteMs;
    if (taken.has(`${channel} ${timeMs}`)) return [];
    taken.add(`${channel} ${timeMs}`);
    const value = channel === 'm' ? celsius / 120 : channel === 'air' ? celsius / 4 : celsius;
    return [
      {
        placementId: channel,
        timeMs,
        value,
        quality: quality as PileSample['quality'],
        reason: quality === 'good' ? null : (reason as 'outlier'),
      },
    ];
  });
});

/** What the rules service does as readings come in one by one, with a look at the clock every minute. */
async function liveRun(samples: readonly PileSample[], endMs: number) {
  const desk: PileDesk = createPileDesk(facts, limits);
  const texts: string[] = [];
  let next = 0;
  for (let nowMs = samples[0]!.timeMs; nowMs <= endMs; nowMs += minuteMs) {
    for (; next < samples.length && samples[next]!.timeMs <= nowMs; next += 1)
      desk.pending.push({ ...samples[next]!, sequence: next });
    await advancePile(desk, null as never, { toMs: nowMs, nowMs, sequence: next });
    const told = { people: [keeper], ways: [], duty: defaultDutyPlan, wordings: builtInWordings };
    const context = { yard, ...told, settings: settingsOf({ publicUrl: () => null }), nowMs };
    for (const message of dueMessages(desk, { ...context, holdTexts: false }))
      texts.push(`${message.idempotencyKey} ${message.priority} ${nowMs}`);
  }
  return { transitions: desk.changes.transitions, texts };
}

const textKey = (alarm: string, text: { occurrence: number; priority: string; atMs: number }) =>
  `pile.cage-2.${alarm}:${text.occurrence}:raised:tobin ${text.priority} ${text.atMs}`;

test('a replay of columns gives exactly the alarms and texts the live runner gave', async () => {
  let raised = 0;
  let texts = 0;
  await fc.assert(
    fc.asyncProperty(samplesArbitrary, fc.integer({ min: 0, max: 600 }), async (samples, tailMinutes) => {
      const endMs = samples.at(-1)!.timeMs + tailMinutes * minuteMs;
      const live = await liveRun(samples, endMs);
      const again = replayPast(pastOf(facts, samples, endMs), limits);
      expect(again.transitions).toEqual(live.transitions);
      expect(again.texts.map((text) => textKey(text.condition, text)).sort()).toEqual(live.texts.sort());
      raised += again.alarms.length;
      texts += again.texts.length;
    }),
    { numRuns: 150 },
  );
  expect(raised).toBeGreaterThan(150);
  expect(texts).toBeGreaterThan(80);
}, 60_000);
