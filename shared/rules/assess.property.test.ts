import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Quality, QualityReason } from '../readings/reading.ts';
import { pileConditions } from './allConditions.ts';
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
    'too-hot-heading-there': { onDelayMinutes: 10, offDelayMinutes: 10, fromCelsius: 30, hoursAhead: 40 },
    'too-hot-too-long': { onDelayMinutes: 0, offDelayMinutes: 10, budgetDays: 1 },
    'too-cold-fell-short': { onDelayMinutes: 20, offDelayMinutes: 10, graceHoursAfterWork: 2 },
    'too-cold-range': { enabled: true, onDelayMinutes: 15, offDelayMinutes: 15 },
    'drying-out-estimated': { onDelayMinutes: 10, limitFraction: 0.57, deadbandFraction: 0.005 },
    'too-wet': { onDelayMinutes: 10, offDelayMinutes: 10, fallingCelsiusPerDay: 0.5, limitFraction: 0.5 },
    'too-cold-never-heated': { days: 1, daysInFrost: 1, onDelayMinutes: 30, limitCelsius: 50 },
    stalled: { onDelayMinutes: 30, offDelayMinutes: 30, graceHoursAfterWork: 2 },
    'drying-out-measured': { onDelayMinutes: 15, offDelayMinutes: 15 },
  },
};
const facts = testFacts({
  method: 'turned-windrow',
  channels: [
    placed('a'),
    placed('b'),
    placed('air', 'air'),
    placed('m', 'core', 'moisture'),
    { ...placed('hand'), maxAgeMinutes: 26 * 60, byHand: true },
  ],
  journal: [wrote('built', 0), wrote('watered', 26), wrote('worms-added', 30)],
});

const step = fc.record({
  gapMinutes: fc.oneof(
    { weight: 16, arbitrary: fc.integer({ min: 1, max: 30 }) },
    fc.integer({ min: 50, max: 400 }),
  ),
  channel: fc.constantFrom('a', 'a', 'a', 'b', 'air', 'm', 'hand'),
  /** Mostly the pile goes on as it goes; now and then it is somewhere else altogether. */
  noise: fc.constantFrom(-1, -0.5, 0, 0, 0, 0.5, 1),
  jumpTo: fc.option(fc.constantFrom(20, 42, 58, 66, 72, 74, 79, 80, 83), { freq: 12 }),
  quality: fc.constantFrom<[Quality, QualityReason | null]>(
    ['good', null],
    ['good', null],
    ['good', null],
    ['good', null],
    ['good', null],
    ['good', null],
    ['good', null],
    ['good', null],
    ['good', null],
    ['bad', 'did-not-answer'],
    ['suspect', 'calibration-stale'],
    ['suspect', 'impossible-rate'],
  ),
});

/** A pile's samples in time order over about two days: it drifts up or down, and jumps. */
const samplesArbitrary = fc
  .record({
    steps: fc.array(step, { minLength: 1, maxLength: 250, size: 'max' }),
    from: fc.integer({ min: 20, max: 70 }),
    perHour: fc.constantFrom(-2, -1, 0, 0.5, 1, 2),
    jumps: fc.boolean(),
  })
  .map(({ steps, from, perHour, jumps }) => {
    let timeMs = startMs + 12 * hourMs;
    let celsius = from;
    const all = steps.map(({ gapMinutes, channel, noise, jumpTo, quality }): PileSample => {
      timeMs += gapMinutes * minuteMs + 7_000;
      celsius = Math.min(84, Math.max(15, (jumps ? jumpTo : null) ?? celsius + (perHour * gapMinutes) / 60));
      const value = channel === 'm' ? 0.4 + (celsius % 20) / 60 : channel === 'air' ? celsius / 4 : celsius;
      const read = channel === 'a' || channel === 'b' ? value + noise : value;
      return { placementId: channel, timeMs, value: read, quality: quality[0], reason: quality[1] };
    });
    // Judgement can go back three days and no further.
    return all.filter((sample) => sample.timeMs < all[0]!.timeMs + 60 * hourMs);
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
  const seen = new Set<string>();
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
        for (const { alarmId } of transitions) seen.add(alarmId.split('.').at(-1)!);
        expect(transitions).toEqual(whole.transitions);
        expect(standing(pile)).toEqual(standing(whole.pile));
      },
    ),
    { numRuns: 80, endOnFailure: true },
  );
  expect(raised).toBeGreaterThan(500);
  // Each pile condition took part; being too long at heat takes more days than these stories have.
  const taking = pileConditions.map(({ id }) => id).filter((id) => id !== 'too-hot-too-long');
  expect([...seen].sort()).toEqual(taking.sort());
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
    { numRuns: 80, endOnFailure: true },
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
    { numRuns: 80, endOnFailure: true },
  );
});
