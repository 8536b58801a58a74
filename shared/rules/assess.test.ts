import { describe, expect, test } from 'vitest';
import { advance, rewind } from './assess.ts';
import type { PlacedChannel } from './channelTrack.ts';
import { createPileSubject, type PileLimits, type PileSample, refill, renewWindow } from './pileSubject.ts';
import { replay } from './replay.ts';
import { loadState, resumeFrom, saveState } from './subjectState.ts';
import {
  course,
  defaultLimits,
  hourMs,
  merged,
  minuteMs,
  placed,
  samplesOf,
  startMs,
  testFacts,
  wrote,
} from './testing/testPile.ts';

/** C-50's limits on the ceiling condition, everything else as it comes. */
const limits: PileLimits = {
  version: 3,
  overrides: {
    'too-hot-ceiling': { limitCelsius: 70, deadbandCelsius: 2, onDelayMinutes: 10, offDelayMinutes: 0 },
    'too-hot-early-notice': { enabled: false },
  },
};

function story(samples: readonly PileSample[], hours: number, facts = testFacts(), chosen = limits) {
  const { transitions } = replay(facts, chosen, samples, startMs + hours * hourMs);
  return transitions.map((step) => [
    (step.atMs - startMs) / minuteMs,
    step.alarmId.split('.').at(-1),
    step.event,
    step.to,
  ]);
}

test('the alarm timing vector C-50 holds from readings to transitions', () => {
  const values = [69, 71, 71, 69.5, 71, 71, 71, 69, 68.5, 67.9];
  const samples = samplesOf(
    'a',
    values.map((value, index) => [index * 5, value]),
  );
  expect(story(samples, 1)).toEqual([
    [30, 'too-hot-ceiling', 'became-active', 'unacknowledged'],
    [45, 'too-hot-ceiling', 'returned-to-normal', 'returned-unacknowledged'],
  ]);
});

test('every transition says which limits judged it and on what evidence', () => {
  const { transitions } = replay(
    testFacts(),
    limits,
    course('a', 0, 1, () => 75),
    startMs + hourMs,
  );
  expect(transitions[0]).toMatchObject({ limitsVersion: 3, occurrence: 1 });
  expect(transitions[0]!.evidence).toContainEqual({ label: 'core', value: 75, unit: 'C' });
});

test('silence neither raises nor clears: the timer stands still until readings come again', () => {
  const samples = samplesOf('a', [
    [0, 71],
    [5, 71],
    [300, 71],
    [303, 71],
  ]);
  expect(story(samples, 6)).toEqual([[10, 'too-hot-ceiling', 'became-active', 'unacknowledged']]);
  const short = samplesOf('a', [
    [0, 60],
    [300, 71],
  ]);
  expect(story(short, 5.1)).toEqual([]);
});

describe('fire danger', () => {
  test('hides the ceiling alarm, is held after the heat is gone, and asks for a look', () => {
    const samples = course('a', 0, 30, (hours) => (hours < 2 ? 85 : 40));
    const steps = story(samples, 30, testFacts(), defaultLimits);
    expect(steps).toContainEqual([10, 'too-hot-fire-danger', 'became-active', 'unacknowledged']);
    expect(steps).toContainEqual([30, 'too-hot-ceiling', 'suppress', 'suppressed']);
    expect(steps.filter((step) => step[1] === 'too-hot-fire-danger').at(-1)![3]).toBe(
      'latched-unacknowledged',
    );
    expect(steps.filter((step) => step[1] === 'too-hot-ceiling').map((step) => step[3])).not.toContain(
      'unacknowledged',
    );
  });

  test('counts from exactly 80 C', () => {
    expect(
      story(
        course('a', 0, 1, () => 80),
        1,
      ).map((step) => step[1]),
    ).toContain('too-hot-fire-danger');
  });
});

describe('never heated', () => {
  const cold = course('a', 0, 24 * 6, () => 25, 30);
  test('is raised four days after building', () => {
    expect(story(cold, 24 * 6, testFacts(), defaultLimits)).toEqual([
      [4 * 1440 + 120, 'too-cold-never-heated', 'became-active', 'unacknowledged'],
    ]);
  });

  test('waits seven days in frost', () => {
    const channels = [placed('a'), placed('air', 'air')];
    const air = course('air', 0, 24 * 8, () => -5, 60);
    const samples = [...air, ...course('a', 0, 24 * 8, () => 5, 30)].sort((x, y) => x.timeMs - y.timeMs);
    expect(story(samples, 24 * 8, testFacts({ channels }), defaultLimits)[0]![0]).toBe(7 * 1440 + 120);
  });

  test('is not raised for a pile that heated and cooled, nor in a leaf heap', () => {
    const heated = course('a', 0, 24 * 6, (hours) => (hours > 24 && hours < 48 ? 50 : 20), 30);
    const steps = story(heated, 24 * 6, testFacts(), defaultLimits);
    expect(steps.map((step) => step[1])).not.toContain('too-cold-never-heated');
    expect(story(cold, 24 * 6, testFacts({ method: 'leaf-heap' }), defaultLimits)).toEqual([]);
  });
});

describe('stalled', () => {
  const falling = course('a', 0, 24 * 8, (hours) => (hours < 72 ? 55 : Math.max(25, 55 - (hours - 72))), 10);
  const facts = testFacts({ method: 'turned-windrow' });
  /** The same fall also cuts its sanitisation record short; that is another condition's story. */
  const alone: PileLimits = { version: 0, overrides: { 'too-cold-fell-short': { enabled: false } } };
  const names = (steps: ReturnType<typeof story>) => steps.map((step) => `${step[1]} ${step[2]}`);

  test('is raised when heat falls away while it is still due', () => {
    expect(names(story(falling, 24 * 8, facts, alone))).toEqual(['stalled became-active']);
  });

  test('is hidden by design after watering and shown as new when the time is over', () => {
    const watered = testFacts({ method: 'turned-windrow', journal: [wrote('watered', 90)] });
    const steps = story(falling, 24 * 8, watered, alone);
    expect(names(steps)).toEqual(['stalled suppress', 'stalled became-active', 'stalled unsuppress']);
    expect(steps.at(-1)).toEqual([(90 + 24) * 60, 'stalled', 'unsuppress', 'unacknowledged']);
  });

  test('keeps "cooled too early" hidden: one event, one text', () => {
    const steps = story(falling, 24 * 8, facts, defaultLimits);
    expect(names(steps)).toEqual([
      'stalled became-active',
      'too-cold-fell-short suppress',
      'too-cold-fell-short became-active',
    ]);
  });

  test('is not raised in a static cage after its few hot days', () => {
    const natural = course('a', 0, 24 * 8, (hours) => (hours < 76 ? 55 : 22), 10);
    expect(story(natural, 24 * 8, testFacts(), defaultLimits)).toEqual([]);
  });
});

describe('texts', () => {
  const chatter = course('a', 0, 5, (hours) => (Math.floor(hours * 2) % 2 === 0 ? 72 : 66));

  test('chatter across the limit asks for one text', () => {
    const pile = createPileSubject(testFacts(), limits);
    const changes = advance(pile.subject, chatter, startMs + 5 * hourMs);
    expect(changes.transitions.filter((step) => step.event === 'became-active').length).toBe(3);
    expect(pile.subject.alarms.get('too-hot-ceiling')!.occurrence).toBe(1);
    const measured = { label: 'core', value: 72, limit: 70, unit: 'C' };
    expect([...pile.subject.textsDue]).toEqual([
      ['too-hot-ceiling', { occurrence: 1, dueMs: startMs + 10 * minuteMs, measured }],
    ]);
  });

  test('a new occurrence soon after the last text waits', () => {
    const pile = createPileSubject(testFacts(), limits);
    pile.subject.lastTextMs.set('too-hot-ceiling', startMs);
    advance(
      pile.subject,
      course('a', 0, 1, () => 75),
      startMs + hourMs,
    );
    expect(pile.subject.textsDue.get('too-hot-ceiling')!.dueMs).toBe(startMs + 60 * minuteMs);
  });
});

describe('judged again', () => {
  const facts = testFacts({ channels: [placed('a'), placed('b')] });
  const told = course('a', 0, 3, (hours) => (hours >= 1 && hours < 2 ? 60 : 72));

  /** A pile that was hot, back, and hot again; then a late sample of another probe sends judgement to the start. */
  function withLate(lateCelsius: number) {
    const pile = createPileSubject(facts, limits);
    const before = advance(pile.subject, told, startMs + 3 * hourMs).transitions;
    const all = merged(told, samplesOf('b', [[1, lateCelsius]]));
    renewWindow(pile);
    refill(pile, all.slice(0, 1));
    rewind(pile.subject, startMs + minuteMs, startMs);
    const after = advance(pile.subject, all.slice(1), startMs + 3 * hourMs).transitions;
    return { before, after, pile };
  }

  test('what people were told is not told again', () => {
    const { before, after } = withLate(40);
    expect(before.map((step) => step.event)).toEqual([
      'became-active',
      'returned-to-normal',
      'became-active',
    ]);
    expect(after).toEqual([]);
  });

  test('what turns out otherwise is told once, as it stands now', () => {
    const pile = createPileSubject(facts, limits);
    advance(
      pile.subject,
      samplesOf('a', [
        [0, 72],
        [20, 72],
      ]),
      startMs + 25 * minuteMs,
    );
    const all = samplesOf('a', [
      [0, 72],
      [5, 60],
      [10, 60],
      [20, 72],
    ]);
    renewWindow(pile);
    refill(pile, all.slice(0, 1));
    rewind(pile.subject, startMs + 5 * minuteMs, startMs);
    const { transitions } = advance(pile.subject, all.slice(1), startMs + 26 * minuteMs);
    expect(transitions.map((step) => [step.event, step.to])).toEqual([
      ['returned-to-normal', 'returned-unacknowledged'],
    ]);
  });

  test('a restart does not hide again what came out of hiding without a reading', () => {
    const alone: PileLimits = { version: 0, overrides: { 'too-cold-fell-short': { enabled: false } } };
    const journal = [wrote('watered', 90)];
    const turned = testFacts({ method: 'turned-windrow', journal });
    const falling = course('a', 0, 110, (hours) => (hours < 72 ? 55 : 30), 10);
    const daily: PlacedChannel = { ...placed('a'), maxAgeMinutes: 3000 };
    const pile = createPileSubject({ ...turned, placed: [daily] }, alone);
    advance(pile.subject, falling, startMs + 120 * hourMs);
    expect(pile.subject.alarms.get('stalled')!.state).toBe('unacknowledged');
    const again = createPileSubject({ ...turned, placed: [daily] }, alone);
    loadState(again.subject, saveState(pile.subject));
    again.subject.alarms.set('stalled', pile.subject.alarms.get('stalled')!);
    refill(again, falling);
    resumeFrom(again.subject, again.window.lastSampleMs);
    expect(advance(again.subject, [], startMs + 121 * hourMs).transitions).toEqual([]);
  });
});
