import { describe, expect, test } from 'vitest';
import { pileConditions } from '../allConditions.ts';
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

const windrow = testFacts({ method: 'turned-windrow' });

describe('fire danger', () => {
  test('is raised above 76 C while still rising, long before 80 C, and stays until below the deadband', () => {
    const rising = course('a', 0, 60, (hours) =>
      hours < 20 ? 70 + hours * 0.4 : hours < 40 ? 78 : hours < 50 ? 74.5 : 70,
    );
    const steps = stepsOf('too-hot-fire-danger', rising, { hours: 60 });
    expect(steps[0]![0]).toBe('became-active');
    expect(steps[0]![1]).toBeGreaterThan(15);
    expect(steps[0]![1]).toBeLessThan(16);
    expect(steps[1]).toEqual(['returned-to-normal', 51]);
  });

  test('is raised by a slow rise above 76 C, which a core that levels off does not make', () => {
    const slow = course('a', 0, 30, (hours) => 75 + hours * 0.12);
    const [raised] = stepsOf('too-hot-fire-danger', slow, { hours: 30 });
    expect(raised![0]).toBe('became-active');
    expect(raised![1]).toBeLessThan(9);
    const slower = course('a', 0, 60, (hours) => 76.2 + hours * 0.03);
    expect(eventsOf('too-hot-fire-danger', slower, { hours: 60 })).toEqual([]);
  });

  test('looks at the hottest place, not at a core that stands still beside it', () => {
    const facts = testFacts({ channels: [placed('a'), placed('s', 'shoulder')] });
    const besides = merged(
      course('a', 0, 30, () => 72),
      course('s', 0, 30, (hours) => 70 + hours * 0.4),
    );
    const [raised] = stepsOf('too-hot-fire-danger', besides, { hours: 30, facts });
    expect(raised![0]).toBe('became-active');
    expect(raised![1]).toBeLessThan(16);
    const { alarms } = replay(facts, defaultLimits, besides, startMs + 30 * hourMs);
    const fire = alarms.find(({ condition }) => condition === 'too-hot-fire-danger')!;
    expect(fire.evidence.map(({ label }) => label)).toContain('hottest place, trend of 6 h');
  });

  test('takes no rise from a hotter probe that was lost and is back', () => {
    const facts = testFacts({ channels: [placed('a'), placed('b')] });
    const back = merged(
      course('a', 0, 40, () => 70),
      course('b', 0, 10, () => 77),
      course('b', 16, 40, () => 77),
    );
    expect(eventsOf('too-hot-fire-danger', back, { hours: 40, facts })).toEqual([]);
  });

  test('is not raised by a steady 77 C: the ceiling alarm is for that', () => {
    const steady = course('a', 0, 30, () => 77);
    expect(eventsOf('too-hot-fire-danger', steady, { hours: 30 })).toEqual([]);
    expect(eventsOf('too-hot-ceiling', steady, { hours: 30 })).toEqual(['became-active']);
  });

  test('while it stands no other condition advises to open or turn, even below 80 C', () => {
    const rising = course('a', 0, 20, (hours) => 70 + hours * 0.4);
    const { alarms } = replay(windrow, defaultLimits, rising, startMs + 20 * hourMs);
    expect(alarms.find(({ condition }) => condition === 'too-hot-fire-danger')?.state).toBe('unacknowledged');
    expect(alarms.find(({ condition }) => condition === 'too-hot-ceiling')?.state).toBe('suppressed');
  });
});

describe('heading for the ceiling', () => {
  const climbing = (perHour: number) => course('a', 0, 30, (hours) => Math.min(78, 50 + hours * perHour));

  test('is told hours ahead when the climb is steady, and gives way to the ceiling alarm', () => {
    const steps = stepsOf('too-hot-heading-there', climbing(1), { hours: 30, facts: windrow });
    expect(steps[0]).toEqual(['became-active', 17]);
    expect(steps.map(([event]) => event)).toContain('suppress');
    const [ceiling] = stepsOf('too-hot-ceiling', climbing(1), { hours: 30, facts: windrow });
    expect(ceiling![1] - steps[0]![1]).toBeGreaterThan(4);
  });

  test('is silent about a pile that slows down and levels off at 66 C', () => {
    const settling = course('a', 0, 60, (hours) => 66 - 46 * Math.exp(-hours / 12));
    expect(eventsOf('too-hot-heading-there', settling, { hours: 60 })).toEqual([]);
  });

  test('is silent when the readings scatter so much that the slope may be nothing', () => {
    const scatter = course('a', 0, 40, (hours) => 64 + hours * 0.05 + 2 * Math.sin(hours * 37));
    expect(eventsOf('too-hot-heading-there', scatter, { hours: 40 })).toEqual([]);
  });

  test('is silent below 66 C, where every young pile climbs fast and most level off', () => {
    const young = course('a', 0, 20, (hours) => Math.min(65, 20 + hours * 3));
    expect(eventsOf('too-hot-heading-there', young, { hours: 20 })).toEqual([]);
  });

  test('clears when the climb ends below the ceiling', () => {
    const ending = course('a', 0, 60, (hours) => Math.min(68, 50 + hours));
    const events = eventsOf('too-hot-heading-there', ending, { hours: 60 });
    expect(events).toEqual(['became-active', 'returned-to-normal']);
  });

  test('judges nothing from a lower bound: the leading probe is lost', () => {
    const facts = testFacts({ channels: [placed('a'), placed('b')] });
    const lost = merged(
      course('a', 0, 10, (hours) => 60 + hours * 0.9),
      course('b', 0, 60, () => 50),
    );
    expect(eventsOf('too-hot-heading-there', lost, { hours: 60, facts })).toEqual(['became-active']);
  });
});

describe('hot for too long', () => {
  const days = (count: number) => course('a', 0, 24 * count, () => 60, 30);

  test('a static cage has fourteen days above 55 C after its three-day core record', () => {
    const [raised, ...more] = stepsOf('too-hot-too-long', days(20), { hours: 24 * 20 });
    expect(more).toEqual([]);
    expect(raised![0]).toBe('became-active');
    expect(Math.abs(raised![1] - 24 * 17)).toBeLessThan(9);
  });

  test("it clears when the core has cooled past the deadband, and the budget is the pile's own", () => {
    const hotThenCool = course(
      'a',
      0,
      24 * 10,
      (hours) => (hours < 24 * 8 ? 60 : hours < 24 * 9 ? 53 : 40),
      30,
    );
    const limits = { version: 1, overrides: { 'too-hot-too-long': { budgetDays: 3 } } };
    const steps = stepsOf('too-hot-too-long', hotThenCool, { hours: 24 * 10, limits });
    expect(steps.map(([event]) => event)).toEqual(['became-active', 'returned-to-normal']);
    expect(steps[1]![1]).toBeCloseTo(24 * 9 + 6, 1);
  });

  test('a windrow that was never turned has no complete record, so its budget has not begun', () => {
    expect(eventsOf('too-hot-too-long', days(90), { hours: 24 * 90, facts: windrow })).toEqual([]);
  });

  test.each(['worm-bed', 'curing-heap', 'leaf-heap'] as const)('is not judged in a %s', (method) => {
    const condition = pileConditions.find(({ id }) => id === 'too-hot-too-long')!;
    expect(condition.defaults(method).enabled).toBe(false);
  });
});

describe('fell short', () => {
  const hotFor = (hours: number, total: number, then = 45) =>
    course('a', 0, total, (at) => (at < hours ? 60 : then), 20);

  test('is raised when the core has been below 55 C for a day with less than three days of record', () => {
    expect(stepsOf('too-cold-fell-short', hotFor(50, 80), { hours: 80 })).toEqual([['became-active', 74]]);
  });

  test('is not raised once the record is complete', () => {
    expect(eventsOf('too-cold-fell-short', hotFor(80, 120), { hours: 120 })).toEqual([]);
  });

  test('clears when the heat comes back past the deadband, not before', () => {
    const back = (celsius: number) =>
      course('a', 0, 140, (at) => (at < 50 ? 60 : at < 80 ? 45 : celsius), 20);
    // Back above 55 C it waits out of sight, and is over after two days past the deadband.
    expect(eventsOf('too-cold-fell-short', back(56), { hours: 140 })).toEqual(['became-active', 'suppress']);
    expect(stepsOf('too-cold-fell-short', back(58), { hours: 140 })).toEqual([
      ['became-active', 74],
      ['suppress', 80],
      ['returned-to-normal', 128],
    ]);
  });

  test('a turn that warms it for a day is not the end of it: the same trouble, no second text', () => {
    const twice = course('a', 0, 160, (at) => (at < 50 ? 60 : at < 80 ? 45 : at < 104 ? 60 : 45), 20);
    const facts = testFacts({ method: 'hot-bin' });
    const { transitions } = replay(facts, defaultLimits, twice, startMs + 160 * hourMs);
    const own = transitions.filter(({ alarmId }) => alarmId.endsWith('too-cold-fell-short'));
    expect(own.map(({ event }) => event)).toEqual(['became-active', 'suppress', 'unsuppress']);
  });

  test('is hidden for two days after a turn', () => {
    const facts = testFacts({ method: 'hot-bin', journal: [wrote('turned', 50)] });
    const steps = stepsOf('too-cold-fell-short', hotFor(50, 110), { hours: 110, facts });
    expect(steps.map(([event]) => event)).toEqual(['suppress', 'became-active', 'unsuppress']);
    expect(steps[2]![1]).toBe(98);
  });

  test('a core probe that dies hot falls short of nothing', () => {
    const facts = testFacts({ channels: [placed('a'), placed('b')] });
    const samples = merged(
      course('a', 0, 50, () => 60),
      course('b', 0, 100, () => 48),
    );
    expect(eventsOf('too-cold-fell-short', samples, { hours: 100, facts })).toEqual([]);
  });

  test('in a windrow, fifteen days and no turning are not enough, and after two weeks nobody is asked any more', () => {
    const samples = course('a', 0, 24 * 40, (at) => (at < 24 * 20 ? 60 : 40), 60);
    const channels = [{ ...placed('a'), maxAgeMinutes: 180 }];
    const steps = stepsOf('too-cold-fell-short', samples, {
      hours: 24 * 40,
      facts: testFacts({ method: 'turned-windrow', channels }),
    });
    expect(steps.map(([event]) => event)).toEqual(['became-active', 'returned-to-normal']);
    expect(steps[1]![1] - 24 * 36).toBeLessThan(4);
  });
});

describe('range of worms and curing', () => {
  const at = (celsius: number, hours = 12) => course('a', 0, hours, () => celsius, 20);
  const inRange = (celsius: number, method: 'worm-bed' | 'curing-heap' | 'static-cage') =>
    eventsOf('too-cold-range', at(celsius), { hours: 12, facts: testFacts({ method }) });

  test.each([
    ['worm-bed', 4, ['became-active']],
    ['worm-bed', 6, []],
    ['worm-bed', 20, []],
    ['worm-bed', 28, []],
    ['worm-bed', 29, ['became-active']],
    ['curing-heap', 0, ['became-active']],
    ['curing-heap', 20, []],
    ['curing-heap', 46, ['became-active']],
    ['static-cage', 60, []],
    ['static-cage', 2, []],
  ] as const)('a %s at %d C: %j', (method, celsius, events) => {
    expect(inRange(celsius, method)).toEqual(events);
  });

  test('a cage counts from the day worms were added', () => {
    const facts = testFacts({ journal: [wrote('worms-added', 6)] });
    expect(stepsOf('too-cold-range', at(33, 30), { hours: 30, facts })).toEqual([['became-active', 8]]);
  });

  test('comes back only past the deadband', () => {
    const cooling = (then: number) => course('a', 0, 30, (hours) => (hours < 10 ? 32 : then), 20);
    const facts = testFacts({ method: 'worm-bed' });
    expect(eventsOf('too-cold-range', cooling(27), { hours: 30, facts })).toEqual(['became-active']);
    expect(eventsOf('too-cold-range', cooling(25), { hours: 30, facts })).toEqual([
      'became-active',
      'returned-to-normal',
    ]);
  });

  test('says how bad: deadly for worms is high, a warm curing heap is low', () => {
    const raised = (celsius: number, method: 'worm-bed' | 'curing-heap') =>
      replay(testFacts({ method }), defaultLimits, at(celsius), startMs + 12 * hourMs).alarms[0]!.priority;
    expect([raised(33, 'worm-bed'), raised(29, 'worm-bed'), raised(47, 'curing-heap')]).toEqual([
      'high',
      'medium',
      'low',
    ]);
  });
});
