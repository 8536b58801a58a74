import fc from 'fast-check';
import { expect, test } from 'vitest';
import { advance, rewind } from './assess.ts';
import { createPileSubject, type PileSample, type PileSubject, refill, renewWindow } from './pileSubject.ts';
import { loadState, resumeFrom, saveState } from './subjectState.ts';
import { hourMs, minuteMs, placed, startMs, testFacts, wrote } from './testing/testPile.ts';

/** Limits so near each other that a few random values make every kind of change happen. */
const limits = {
  version: 1,
  overrides: {
    'too-hot-fire-danger': { onDelayMinutes: 5, offDelayMinutes: 20 },
    'too-hot-ceiling': { onDelayMinutes: 10, offDelayMinutes: 15 },
    'too-hot-early-notice': { onDelayMinutes: 20, offDelayMinutes: 10 },
    'too-cold-never-heated': { days: 1, daysInFrost: 1, onDelayMinutes: 30 },
    stalled: { onDelayMinutes: 30, offDelayMinutes: 30, graceHoursAfterWork: 2 },
    'drying-out-measured': { onDelayMinutes: 15, offDelayMinutes: 15 },
  },
};
const facts = testFacts({
  method: 'turned-windrow',
  channels: [placed('a'), placed('b'), placed('air', 'air'), placed('m', 'core', 'moisture')],
  journal: [wrote('built', 0), wrote('watered', 26)],
});

const step = fc.record({
  gapMinutes: fc.oneof(
    { weight: 8, arbitrary: fc.integer({ min: 1, max: 20 }) },
    fc.integer({ min: 50, max: 400 }),
  ),
  channel: fc.constantFrom('a', 'a', 'b', 'air', 'm'),
  celsius: fc.constantFrom(20, 35, 42, 58, 64, 66, 70, 72, 74, 79, 80, 83),
  quality: fc.constantFrom('good', 'good', 'good', 'bad' as const),
});

/** A pile's samples in time order over about two days. */
const samplesArbitrary = fc.array(step, { minLength: 1, maxLength: 150 }).map((steps) => {
  let timeMs = startMs + 12 * hourMs;
  return steps.map(({ gapMinutes, channel, celsius, quality }): PileSample => {
    timeMs += gapMinutes * minuteMs + 7_000;
    const value = channel === 'm' ? celsius / 120 : channel === 'air' ? celsius / 4 : celsius;
    return { placementId: channel, timeMs, value, quality: quality as PileSample['quality'] };
  });
});

function standing(pile: PileSubject) {
  const alarms = [...pile.subject.alarms.values()].map(
    ({ id, state, occurrence, activeSinceMs, returnedMs, timing }) => ({
      id,
      state,
      occurrence,
      activeSinceMs,
      returnedMs,
      active: timing.active,
    }),
  );
  return { alarms, state: saveState(pile.subject) };
}

function judgeAll(samples: readonly PileSample[], toMs: number) {
  const pile = createPileSubject(facts, limits);
  return { pile, transitions: advance(pile.subject, samples, toMs).transitions };
}

/** Cuts a list at places given as fractions of its length. */
function cut<T>(list: readonly T[], places: readonly number[]): T[][] {
  const at = [
    0,
    ...places.map((place) => Math.floor(place * list.length)).sort((x, y) => x - y),
    list.length,
  ];
  return at.slice(1).map((end, index) => list.slice(at[index]!, end));
}

const cuts = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 });

test('the size of batches never matters', () => {
  let raised = 0;
  fc.assert(
    fc.property(
      samplesArbitrary,
      cuts,
      fc.integer({ min: 0, max: 20_000_000 }),
      (samples, places, tailMs) => {
        const endMs = samples.at(-1)!.timeMs + tailMs;
        const whole = judgeAll(samples, endMs);
        const pile = createPileSubject(facts, limits);
        const transitions = cut(samples, places).flatMap((batch) =>
          batch.length === 0 ? [] : advance(pile.subject, batch, batch.at(-1)!.timeMs).transitions,
        );
        transitions.push(...advance(pile.subject, [], endMs).transitions);
        raised += transitions.length;
        expect(transitions).toEqual(whole.transitions);
        expect(standing(pile)).toEqual(standing(whole.pile));
      },
    ),
    { numRuns: 150 },
  );
  expect(raised).toBeGreaterThan(500);
});

/** What the service does at a restart: stored state and alarms, a window filled from the store, on from there. */
function restarted(before: PileSubject, done: readonly PileSample[]): PileSubject {
  const pile = createPileSubject(facts, limits);
  loadState(pile.subject, saveState(before.subject));
  for (const alarm of before.subject.alarms.values()) pile.subject.alarms.set(alarm.condition, alarm);
  refill(pile, done);
  resumeFrom(pile.subject, pile.window.lastSampleMs);
  return pile;
}

test('a restart at any moment is as no restart', () => {
  fc.assert(
    fc.property(
      samplesArbitrary,
      cuts,
      fc.integer({ min: 0, max: 7_200_000 }),
      (samples, places, pauseMs) => {
        const endMs = samples.at(-1)!.timeMs + 6 * hourMs;
        const whole = judgeAll(samples, endMs);
        let pile = createPileSubject(facts, limits);
        const transitions = [];
        const done: PileSample[] = [];
        for (const batch of cut(samples, places)) {
          done.push(...batch);
          const nextMs = samples[done.length]?.timeMs ?? endMs;
          const toMs = Math.min((done.at(-1)?.timeMs ?? startMs) + pauseMs, nextMs - 1);
          transitions.push(...advance(pile.subject, batch, toMs).transitions);
          pile = restarted(pile, done);
        }
        transitions.push(...advance(pile.subject, [], endMs).transitions);
        expect(transitions).toEqual(whole.transitions);
        expect(standing(pile)).toEqual(standing(whole.pile));
      },
    ),
    { numRuns: 150 },
  );
});

test('late samples, judged again from the instant they belong to, leave every condition as if they had been in time', () => {
  fc.assert(
    fc.property(samplesArbitrary, fc.double({ min: 0, max: 1, noNaN: true }), (samples, place) => {
      const endMs = samples.at(-1)!.timeMs + hourMs;
      const whole = judgeAll(samples, endMs);
      const late = Math.floor(place * (samples.length - 1));
      const inTime = samples.filter((_sample, index) => index % 3 !== 0 || index < late);
      const pile = createPileSubject(facts, limits);
      advance(pile.subject, inTime, endMs);
      const firstLateMs = samples.find((sample) => !inTime.includes(sample))?.timeMs ?? endMs;
      renewWindow(pile);
      refill(
        pile,
        samples.filter((sample) => sample.timeMs < firstLateMs),
      );
      rewind(pile.subject, firstLateMs, pile.window.lastSampleMs);
      advance(
        pile.subject,
        samples.filter((sample) => sample.timeMs >= firstLateMs),
        endMs,
      );
      const active = (one: PileSubject) =>
        [...one.subject.alarms.values()]
          .filter((alarm) => alarm.timing.active)
          .map((alarm) => alarm.condition)
          .sort();
      expect(active(pile)).toEqual(active(whole.pile));
      expect(pile.subject.trail.entries.at(-1)).toEqual(whole.pile.subject.trail.entries.at(-1));
    }),
    { numRuns: 150 },
  );
});
