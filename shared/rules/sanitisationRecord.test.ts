import fc from 'fast-check';
import { expect, test } from 'vitest';
import { evaluateSanitisation } from '../compost/sanitisation/evaluate.ts';
import type { PileMethod } from '../yard/method.ts';
import { createPileSubject, type PileSample, refill } from './pileSubject.ts';
import { addPastHour, atInstant } from './pileWindow.ts';
import { shownRule } from './sanitisationRecord.ts';
import {
  course,
  defaultLimits,
  hourMs,
  merged,
  placed,
  samplesOf,
  startMs,
  testFacts,
  wrote,
} from './testing/testPile.ts';

/** Some hours of one zone at one temperature; null = its probe is silent. */
const spell = fc.record({
  hours: fc.integer({ min: 1, max: 90 }),
  celsius: fc.constantFrom(20, 54, 54.9, 55, 56, 60, 70, null),
});
const zone = fc.array(spell, { minLength: 1, maxLength: 12, size: 'max' });

/** A zone's hourly values; silent hours are left out. */
function hoursOf(id: string, spells: readonly { hours: number; celsius: number | null }[]): PileSample[] {
  let fromHours = 0;
  return spells.flatMap(({ hours, celsius }) => {
    const from = fromHours;
    fromHours += hours;
    return celsius === null ? [] : course(id, from + 0.5, fromHours + 0.5, () => celsius, 60);
  });
}

test('the few hours a window keeps tell the same as the library says of every hour', () => {
  let met = 0;
  const cases = fc.record({
    core: zone,
    edge: fc.option(zone),
    turned: fc.array(fc.integer({ min: 1, max: 500 })),
  });
  fc.assert(
    fc.property(
      cases,
      fc.constantFrom<PileMethod>('hot-bin', 'turned-windrow', 'static-cage'),
      (story, method) => {
        const samples = merged(hoursOf('a', story.core), story.edge === null ? [] : hoursOf('e', story.edge));
        const channels = [placed('a'), ...(story.edge === null ? [] : [placed('e', 'edge')])];
        const journal = [...story.turned].sort((a, b) => a - b).map((hours) => wrote('turned', hours));
        const facts = testFacts({ method, channels, journal });
        const pile = createPileSubject(facts, defaultLimits);
        refill(pile, samples);
        const endMs = (samples.at(-1)?.timeMs ?? startMs) + hourMs;
        // A reading of the next hour closes the last one; it is cold and counts for nothing.
        refill(pile, [{ placementId: 'a', timeMs: endMs, value: 20, quality: 'good' }]);
        const kept = atInstant(pile.window, endMs).sanitisation!;
        const series = channels.map(({ placement: { id, position, channel } }) => {
          const own = samples.filter(({ placementId }) => placementId === id);
          const rhythm = { represents: 'instants', intervalMs: hourMs, fromMs: startMs, toMs: null } as const;
          return { position, channel, samples: own, ...rhythm };
        });
        const input = {
          method,
          startedMs: startMs,
          nowMs: endMs,
          series,
          journal,
          moisture: [],
          largestPieceMetres: null,
        };
        const whole = evaluateSanitisation(shownRule(method)!, input);
        expect([kept.outcome, kept.progress]).toEqual([whole.outcome, whole.progress]);
        if (method !== 'static-cage') expect(kept.recordAtMs).toBe(whole.satisfiedAtMs);
        if (whole.outcome !== 'not-yet') met += 1;
      },
    ),
    { numRuns: 300 },
  );
  expect(met).toBeGreaterThan(20);
});

test('fresh material clears the record, whenever it was last looked at, and a later complete one counts again', () => {
  const facts = testFacts({ method: 'hot-bin', journal: [wrote('added', 100)] });
  const pile = createPileSubject(facts, defaultLimits);
  const samples = course('a', 0, 200, () => 60, 20);
  const outcomeAt = (fromHours: number, hours: number) => {
    refill(pile, samples.slice(fromHours * 3, hours * 3));
    return atInstant(pile.window, startMs + hours * hourMs - 1).sanitisation!.outcome;
  };
  expect(outcomeAt(0, 98)).toBe('consistent');
  expect(outcomeAt(98, 110)).toBe('not-yet');
  expect(outcomeAt(110, 180)).toBe('consistent');
});

test('in a pile read by hand once a day, one cool reading in between ends the run', () => {
  const standing = (readings: readonly (readonly [number, number])[]) => {
    const daily = { ...placed('a'), maxAgeMinutes: 4 * 1440 };
    const pile = createPileSubject(testFacts({ method: 'hot-bin', channels: [daily] }), defaultLimits);
    refill(
      pile,
      samplesOf(
        'a',
        readings.map(([hours, celsius]) => [hours * 60, celsius]),
      ),
    );
    return atInstant(pile.window, startMs + 100 * hourMs).sanitisation!.outcome;
  };
  const hot = [0, 24, 48, 73, 90].map((hours) => [hours, 60] as const);
  expect(standing(hot)).toBe('consistent');
  expect(standing([...hot.slice(0, 2), [34, 45], ...hot.slice(2)])).toBe('not-yet');
});

test('readings of hours that roll-ups have told already leave the record in order', () => {
  const { subject, window } = createPileSubject(testFacts(), defaultLimits);
  for (let hours = 0; hours < 200; hours += 1)
    addPastHour(window, {
      startMs: startMs + hours * hourMs,
      core: { startMs: startMs + hours * hourMs, minimum: 60, maximum: 60 },
      means: [{ placementId: 'a', mean: 60 }],
    });
  const late = course('a', 20, 30, () => 61);
  refill({ subject, window }, [...late, ...course('a', 201, 206, () => 60)]);
  expect(atInstant(window, startMs + 206 * hourMs).sanitisation?.outcome).toBe('core-record-only');
});
