import { describe, expect, test } from 'vitest';
import type { JournalEntry } from '../../yard/journal.ts';
import type { PileMethod } from '../../yard/method.ts';
import { createPileSubject, type PileSample, refill } from '../pileSubject.ts';
import { atInstant } from '../pileWindow.ts';
import { replay } from '../replay.ts';
import {
  course,
  defaultLimits,
  hourMs,
  merged,
  placed,
  startMs,
  testFacts,
  wrote,
} from '../testing/testPile.ts';
import { eventsOf, stepsOf } from '../testing/testStory.ts';

const withProbe = (method: PileMethod, journal: JournalEntry[] = []) =>
  testFacts({ method, journal, channels: [placed('a'), placed('m', 'core', 'moisture')] });

describe('drying out, measured', () => {
  const moisture = (valueAt: (hours: number) => number, hours: number) => course('m', 0, hours, valueAt, 30);

  test('is foretold three days ahead of the limit, with the pace as evidence', () => {
    const falling = moisture((hours) => 0.6 - hours * 0.001, 200);
    const facts = withProbe('hot-bin');
    const { transitions } = replay(facts, defaultLimits, falling, startMs + 200 * hourMs);
    const [raised] = transitions;
    expect(raised!.alarmId).toContain('drying-out-measured');
    // It reaches 45 % at 150 h: three days before is 78 h, and two hours of on-delay.
    expect((raised!.atMs - startMs) / hourMs).toBeCloseTo(80, 0);
    const dryIn = raised!.evidence.find(({ label }) => label.startsWith('dry in'));
    expect(dryIn).toMatchObject({ unit: 'd' });
    expect(Number(dryIn!.value)).toBeCloseTo(2.9, 1);
  });

  test('is not foretold from scatter, nor across a watering', () => {
    const scatter = moisture((hours) => 0.52 + 0.02 * Math.sin(hours * 13), 200);
    expect(eventsOf('drying-out-measured', scatter, { hours: 200, facts: withProbe('hot-bin') })).toEqual([]);
    const watered = moisture((hours) => (hours < 72 ? 0.56 - hours * 0.0005 : 0.52), 144);
    const facts = withProbe('hot-bin', [wrote('watered', 72)]);
    expect(eventsOf('drying-out-measured', watered, { hours: 144, facts })).toEqual([]);
  });

  test('below the limit it presses more than before it, most where fungi or worms live', () => {
    const dry = moisture(() => 0.4, 6);
    const priorityIn = (method: PileMethod) =>
      replay(withProbe(method), defaultLimits, dry, startMs + 6 * hourMs).alarms[0]!.priority;
    expect([priorityIn('static-cage'), priorityIn('worm-bed'), priorityIn('hot-bin')]).toEqual([
      'high',
      'high',
      'medium',
    ]);
  });

  test('clears past the deadband only', () => {
    const facts = withProbe('hot-bin');
    const wetted = (to: number) => moisture((hours) => (hours < 10 ? 0.42 : to), 24);
    expect(eventsOf('drying-out-measured', wetted(0.47), { hours: 24, facts })).toEqual(['became-active']);
    expect(eventsOf('drying-out-measured', wetted(0.49), { hours: 24, facts })).toEqual([
      'became-active',
      'returned-to-normal',
    ]);
  });

  test('a lost drier probe clears nothing', () => {
    const channels = [placed('m', 'core', 'moisture'), placed('n', 'edge', 'moisture')];
    const facts = testFacts({ method: 'hot-bin', channels });
    const samples = merged(
      course('m', 0, 10, () => 0.4, 30),
      course('n', 0, 40, () => 0.6, 30),
    );
    expect(eventsOf('drying-out-measured', samples, { hours: 40, facts })).toEqual(['became-active']);
  });
});

describe('drying out, estimated', () => {
  const hot = (days: number) => course('a', 0, 24 * days, () => 62, 30);
  const air = (days: number) => course('air', 0, 24 * days, () => 12, 60);
  const channels = [placed('a'), { ...placed('air', 'air'), maxAgeMinutes: 180 }];

  /** Warms by so many kelvin an hour from 14 C to 62 C and stays there. */
  const warming = (days: number, perHour: number) =>
    course('a', 0, 24 * days, (hours) => Math.min(62, 14 + perHour * hours), 30);

  test('says so for a cage that warmed like a rich mix and stayed hot, and how unsure it is', () => {
    const samples = merged(warming(30, 3), air(30));
    const facts = testFacts({ channels });
    const { transitions } = replay(facts, defaultLimits, samples, startMs + 24 * 30 * hourMs);
    const raised = transitions.find(({ alarmId }) => alarmId.endsWith('drying-out-estimated'))!;
    const days = (raised.atMs - startMs) / hourMs / 24;
    expect(days).toBeGreaterThan(4);
    expect(days).toBeLessThan(28);
    const estimate = raised.evidence.find(({ label }) => label === 'estimated moisture');
    expect(estimate!.value).toMatch(/^(5\d|60) \(\d+ to \d\d\)$/);
  });

  test('reckons a rich mix to dry faster than one that warmed slowly, and one whose warming nobody saw as usual', () => {
    const moistureAfter = (samples: PileSample[]) => {
      const pile = createPileSubject(testFacts({ channels }), defaultLimits);
      refill(pile, merged(samples, air(15)));
      return atInstant(pile.window, startMs + 15 * 24 * hourMs).estimatedMoisture.middle;
    };
    const [rich, slow, unseen] = [
      moistureAfter(warming(15, 3)),
      moistureAfter(warming(15, 0.8)),
      moistureAfter(hot(15)),
    ];
    expect(rich).toBeLessThan(slow - 0.04);
    expect(rich).toBeLessThan(unseen);
  });

  test('is not raised with a moisture probe that speaks, whatever the estimate', () => {
    const probe = course('m', 0, 24 * 25, () => 0.66, 30);
    const facts = testFacts({ channels: [...channels, placed('m', 'core', 'moisture')] });
    const samples = merged(hot(30), air(30), probe);
    expect(eventsOf('drying-out-estimated', samples, { hours: 24 * 25, facts })).toEqual([]);
  });

  test('is silent about a cool pile, and about one that is watered as it dries', () => {
    const cool = merged(
      course('a', 0, 24 * 40, () => 16, 60),
      air(40),
    );
    expect(
      eventsOf('drying-out-estimated', cool, { hours: 24 * 40, facts: testFacts({ channels }) }),
    ).toEqual([]);
    const journal = Array.from({ length: 12 }, (_, index) => ({
      ...wrote('watered', 48 * index),
      value: 40,
    }));
    const facts = testFacts({ channels, journal });
    const samples = merged(hot(24), air(24));
    expect(eventsOf('drying-out-estimated', samples, { hours: 24 * 24, facts })).toEqual([]);
  });

  test('goes on from what a probe last measured', () => {
    const facts = testFacts({ channels: [...channels, placed('m', 'core', 'moisture')] });
    const pile = createPileSubject(facts, defaultLimits);
    refill(
      pile,
      merged(
        hot(3),
        air(3),
        course('m', 0, 48, () => 0.72, 30),
      ),
    );
    const { estimatedMoisture } = atInstant(pile.window, startMs + 72 * hourMs);
    expect(estimatedMoisture.middle).toBeGreaterThan(0.69);
    expect(estimatedMoisture.middle).toBeLessThan(0.725);
    expect(estimatedMoisture.low).toBeLessThan(estimatedMoisture.middle);
  });
});

describe('too wet', () => {
  const story = (wet: number, corePerHour: number, method: PileMethod = 'hot-bin') => {
    const samples = merged(
      course('a', 0, 60, (hours) => 60 + Math.max(0, hours - 24) * corePerHour, 10),
      course('m', 0, 60, () => wet, 30),
    );
    return stepsOf('too-wet', samples, { hours: 60, facts: withProbe(method) });
  };

  test('is wet with heat falling away; wet alone, or falling alone, is not', () => {
    expect(story(0.7, -0.4).map(([event]) => event)).toEqual(['became-active']);
    expect(story(0.7, 0)).toEqual([]);
    expect(story(0.6, -0.4)).toEqual([]);
  });

  test('is wet from the start, where heat was due and has not come; then "never heated" keeps quiet', () => {
    const sodden = merged(
      course('a', 0, 150, () => 24, 20),
      course('m', 0, 150, () => 0.72, 30),
    );
    const facts = withProbe('hot-bin');
    expect(stepsOf('too-wet', sodden, { hours: 150, facts })).toEqual([['became-active', 52]]);
    expect(stepsOf('too-cold-never-heated', sodden, { hours: 150, facts })[0]![0]).toBe('suppress');
    expect(eventsOf('too-wet', sodden, { hours: 150, facts: withProbe('leaf-heap') })).toEqual([]);
  });

  test('a cage may be wetter than a bin', () => {
    expect(story(0.7, -0.4, 'static-cage')).toEqual([]);
    expect(story(0.82, -0.4, 'static-cage').map(([event]) => event)).toEqual(['became-active']);
  });

  test('stays until it has dried past the deadband, and is hidden for two days after watering', () => {
    const drying = merged(
      course('a', 0, 100, (hours) => 60 - Math.max(0, hours - 24) * 0.4, 10),
      course('m', 0, 100, (hours) => (hours < 60 ? 0.7 : hours < 80 ? 0.63 : 0.6), 30),
    );
    const steps = stepsOf('too-wet', drying, { hours: 100, facts: withProbe('hot-bin') });
    expect(steps.at(-1)).toEqual(['returned-to-normal', 84]);
    const facts = withProbe('hot-bin', [wrote('watered', 24)]);
    expect(stepsOf('too-wet', drying, { hours: 70, facts })[0]![0]).toBe('suppress');
  });
});

describe('stalled', () => {
  const limits = { version: 0, overrides: { 'too-cold-fell-short': { enabled: false } } };
  const fallAfter = (days: number) =>
    course('a', 0, 24 * (days + 4), (hours) => (hours < 24 * days ? 62 : 30), 20);
  const raisedAfter = (days: number, method: PileMethod) =>
    eventsOf('stalled', fallAfter(days), { hours: 24 * (days + 4), facts: testFacts({ method }), limits });

  test.each([
    ['hot-bin', 5, ['became-active']],
    ['hot-bin', 29, []],
    ['turned-windrow', 8, ['became-active']],
    ['turned-windrow', 15, []],
    ['static-cage', 5, []],
  ] as const)('a %s that falls cool after %d hot days: %j', (method, days, events) => {
    expect(raisedAfter(days, method)).toEqual(events);
  });

  test('says how much is left to burn, and how sure that is', () => {
    const facts = testFacts({ method: 'hot-bin' });
    const { transitions } = replay(facts, limits, fallAfter(5), startMs + 24 * 9 * hourMs);
    const left = transitions[0]!.evidence.find(({ label }) =>
      label.startsWith('readily degradable material left'),
    );
    expect(left!.value).toMatch(/^7\d \(\d\d to \d\d\)$/);
  });

  test('fresh material starts the reckoning over', () => {
    const leftWith = (journal: JournalEntry[]) => {
      const pile = createPileSubject(testFacts({ method: 'hot-bin', journal }), defaultLimits);
      refill(pile, fallAfter(20));
      return atInstant(pile.window, startMs + 24 * 24 * hourMs).materialLeft.middle;
    };
    expect(leftWith([wrote('added', 24 * 20)])).toBeGreaterThan(leftWith([]) + 0.1);
  });
});
