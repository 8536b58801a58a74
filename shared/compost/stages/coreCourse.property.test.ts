import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type CoreChannel, coreCourse } from './coreCourse.ts';

const hour = 3_600_000;
const window = { fromMs: 0, toMs: 100 * hour, stepMs: hour };

/** A smooth channel around a level, dying after some hour (100: it lives on). */
const channel = fc
  .record({
    level: fc.double({ min: 40, max: 75, noNaN: true }),
    diesAt: fc.integer({ min: 1, max: 100 }),
    phase: fc.integer({ min: 0, max: 50 }),
  })
  .map(
    ({ level, diesAt, phase }, index = 0): CoreChannel => ({
      channel: `c${index}`,
      samples: Array.from({ length: diesAt }, (_, step) => ({
        timeMs: step * hour,
        value: level + 3 * Math.sin((step + phase) / 10),
      })),
    }),
  );

const channels = fc.array(channel, { minLength: 1, maxLength: 4 });

test('however core probes die, the course never moves faster than a living probe did', () => {
  fc.assert(
    fc.property(channels, (core) => {
      const course = coreCourse(core, window);
      course.slice(1).forEach(({ celsius }, index) => {
        const before = course[index]!.celsius;
        if (celsius !== null && before !== null) expect(Math.abs(celsius - before)).toBeLessThan(0.31);
      });
    }),
  );
});

test('the course is unknown exactly while every core probe is silent', () => {
  fc.assert(
    fc.property(channels, (core) => {
      const lastHeard = Math.max(...core.map((one) => one.samples.length));
      const known = coreCourse(core, window).map((point) => point.celsius !== null);
      expect(known).toEqual(Array.from({ length: 100 }, (_, step) => step < lastHeard));
    }),
  );
});

test('while all probes speak the course is simply the hottest', () => {
  fc.assert(
    fc.property(channels, (core) => {
      const together = Math.min(...core.map((one) => one.samples.length));
      for (const { timeMs, celsius, carried } of coreCourse(core, window).slice(0, together)) {
        expect(celsius).toBe(Math.max(...core.map((one) => one.samples[timeMs / hour]!.value)));
        expect(carried).toBe(false);
      }
    }),
  );
});

test('a probe that comes back speaks for itself: its old lead is dropped', () => {
  const speaking = (index: number) => index < 20 || index >= 40;
  const hot = Array.from({ length: 60 }, (_, step) => ({ timeMs: step * hour, value: step < 20 ? 60 : 52 }));
  const cool = hot.map(({ timeMs }) => ({ timeMs, value: 50 }));
  const core = [
    { channel: 'hot', samples: hot.filter((_, index) => speaking(index)) },
    { channel: 'cool', samples: cool },
  ];
  const course = coreCourse(core, { ...window, toMs: 60 * hour });
  expect([course[19], course[30], course[40]].map((point) => point?.celsius)).toEqual([60, 60, 52]);
});
