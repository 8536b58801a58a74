import fc from 'fast-check';
import { expect, test } from 'vitest';
import { evaluateAll, evaluateSanitisation } from './evaluate.ts';
import { defaultSanitisationPolicy as careful } from './policy.ts';
import { findRuleSet, ruleSets } from './ruleSets.ts';
import type { ZoneSeries } from './series.ts';
import { meansOf, pileOf } from './testPile.ts';
import { daysByEquation } from './timeTemperature.ts';

const spells = fc.array(
  fc.record({
    hours: fc.integer({ min: 1, max: 90 }),
    celsius: fc.double({ min: 35, max: 80, noNaN: true }),
  }),
  { minLength: 1, maxLength: 12 },
);
const turnedOnDays = fc
  .array(fc.integer({ min: 0, max: 40 }), { maxLength: 8 })
  .map((days) => days.sort((a, b) => a - b));
const rule = fc.constantFrom(...ruleSets);

test('equation 3 asks at t what equation 2 asks three degrees hotter', () => {
  fc.assert(
    fc.property(fc.double({ min: 50, max: 90, noNaN: true }), (celsius) => {
      expect(daysByEquation(3, celsius) / daysByEquation(2, celsius + 3)).toBeCloseTo(1, 3);
    }),
  );
});

test('more time inside the band never takes progress away', () => {
  fc.assert(
    fc.property(
      rule,
      spells,
      turnedOnDays,
      fc.integer({ min: 1, max: 48 }),
      (chosen, course, turns, hours) => {
        const hot = chosen.paths[0].band.upperCelsius ?? 75.5;
        const before = evaluateSanitisation(chosen, pileOf([meansOf(course)], { turnedOnDays: turns }));
        const longer = [...course, { hours, celsius: hot }];
        const after = evaluateSanitisation(chosen, pileOf([meansOf(longer)], { turnedOnDays: turns }));
        expect(after.progress).toBeGreaterThanOrEqual(before.progress - 1e-12);
      },
    ),
  );
});

test('a hole cut out of the data never earns anything', () => {
  const holes = fc.record({
    from: fc.integer({ min: 0, max: 200 }),
    hours: fc.integer({ min: 1, max: 100 }),
  });
  fc.assert(
    fc.property(spells, holes, fc.constantFrom('break', 'pause' as const), (course, hole, gapPolicy) => {
      const whole = meansOf(course);
      const samples = whole.samples.filter(
        (_, index) => index < hole.from || index >= hole.from + hole.hours,
      );
      const policy = { ...careful, gapPolicy };
      const [full, cut] = [whole, { ...whole, samples }].map((series) =>
        evaluateSanitisation(findRuleSet('us-pfrp-windrow'), pileOf([series]), policy),
      );
      expect(cut!.plain.totalHours).toBeLessThanOrEqual(full!.plain.totalHours);
      expect(cut!.plain.totalHours).toBeLessThanOrEqual(samples.length);
    }),
  );
});

test('credited hours are never more than the hours watched by every channel', () => {
  fc.assert(
    fc.property(rule, spells, spells, (chosen, core, edge) => {
      const series = [meansOf(core), meansOf(edge, 'edge')];
      const result = evaluateSanitisation(chosen, pileOf(series));
      const watched = Math.min(...result.coverage.map((channel) => channel.watchedHours));
      expect(result.plain.totalHours).toBeLessThanOrEqual(watched + 1e-9);
      expect(result.guarded.totalHours).toBeLessThanOrEqual(result.plain.totalHours);
    }),
  );
});

test('the order in which positions are given does not matter', () => {
  const zones = fc.tuple(spells, spells, spells);
  fc.assert(
    fc.property(zones, fc.shuffledSubarray([0, 1, 2], { minLength: 3 }), (courses, order) => {
      const positions = ['core', 'edge', 'base'] as const;
      const series = courses.map((course, index) => meansOf(course, positions[index]!));
      const judged = (list: ZoneSeries[]) =>
        evaluateAll(ruleSets, pileOf(list)).map(({ progress, satisfiedAtMs, plain }) => ({
          progress,
          satisfiedAtMs,
          plain,
        }));
      expect(judged(order.map((index) => series[index]!))).toEqual(judged(series));
    }),
    { numRuns: 30 },
  );
});

test('a zone that is watched as well can only make the record stricter', () => {
  fc.assert(
    fc.property(spells, spells, (core, edge) => {
      const alone = evaluateSanitisation(findRuleSet('us-pfrp-in-vessel'), pileOf([meansOf(core)]));
      const both = evaluateSanitisation(
        findRuleSet('us-pfrp-in-vessel'),
        pileOf([meansOf(core), meansOf(edge, 'edge')]),
      );
      expect(both.progress).toBeLessThanOrEqual(alone.progress);
    }),
  );
});

test('progress is 1 exactly when the path is satisfied', () => {
  fc.assert(
    fc.property(rule, spells, turnedOnDays, (chosen, course, turns) => {
      const { progress, satisfiedAtMs } = evaluateSanitisation(
        chosen,
        pileOf([meansOf(course)], { turnedOnDays: turns }),
      );
      expect(progress === 1).toBe(satisfiedAtMs !== null);
      expect(progress).toBeGreaterThanOrEqual(0);
    }),
  );
});
