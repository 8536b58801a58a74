import { describe, expect, test } from 'vitest';
import type { JournalEntry } from '../yard/journal.ts';
import type { PileMethod } from '../yard/method.ts';
import {
  type MilestoneId,
  milestoneIds,
  milestonesIn,
  milestonesOf,
  milestoneWords,
  noteOfMilestone,
  wordsOfMilestone,
} from './milestones.ts';
import { createPileSubject, type PileSample, refill } from './pileSubject.ts';
import { atInstant } from './pileWindow.ts';
import {
  course,
  defaultLimits,
  hourMs,
  merged,
  placed,
  startMs,
  testFacts,
  wrote,
} from './testing/testPile.ts';

function viewAfter(
  days: number,
  samples: readonly PileSample[],
  change: { method?: PileMethod; journal?: JournalEntry[] } = {},
) {
  const channels = [placed('a'), placed('air', 'air'), placed('m', 'core', 'moisture')];
  const pile = createPileSubject(testFacts({ ...change, channels }), defaultLimits);
  refill(pile, samples);
  return atInstant(pile.window, startMs + days * 24 * hourMs - 1);
}

/** A core by days after the start, read every half hour. */
const core = (days: number, celsiusAt: (day: number) => number) =>
  course('a', 0, days * 24, (hours) => celsiusAt(hours / 24), 30);

const reached = (...given: Parameters<typeof viewAfter>): MilestoneId[] => milestonesOf(viewAfter(...given));

describe('sanitisation record complete', () => {
  const hot = core(5, () => 60);

  test('is reached with the record, in a bin as a record, in a cage as the core record only', () => {
    expect(reached(5, hot, { method: 'hot-bin' })).toContain('record-complete');
    const [bin, cage] = (['hot-bin', 'static-cage'] as const).map((method) =>
      wordsOfMilestone('record-complete', viewAfter(5, hot, { method })),
    );
    expect(bin!.title).toBe('sanitisation record complete');
    expect(cage!.title).toBe('core record complete, core only');
    for (const { title, nextStep } of [bin!, cage!])
      expect(`${title} ${nextStep}`).not.toMatch(/certified|pathogen-free|sterile/i);
  });

  test('is not reached two days in, nor in a worm bed', () => {
    expect(
      reached(
        2,
        core(2, () => 60),
      ),
    ).not.toContain('record-complete');
    expect(reached(5, hot, { method: 'worm-bed' })).not.toContain('record-complete');
  });
});

describe('time to pull the air channels', () => {
  const cooling = core(12, (day) => (day < 5 ? 62 : 45));

  test('is ten days after building where nobody measures the settling', () => {
    expect(
      reached(
        9,
        core(9, (day) => (day < 5 ? 62 : 45)),
      ),
    ).not.toContain('pull-channels');
    expect(reached(12, cooling)).toContain('pull-channels');
  });

  test('is when settling has ended where it is measured', () => {
    const level = (day: number) => 1.2 - 0.03 * Math.min(day, 8) - 0.001 * day;
    const measured = Array.from({ length: 16 }, (_, day) => level(day));
    const still = Array.from({ length: 16 }, (_, day) => 1.2 - 0.02 * day - (day > 8 ? 0.03 * (day - 8) : 0));
    const view = viewAfter(12, cooling);
    expect(milestonesOf(view, measured)).toContain('pull-channels');
    expect(milestonesOf(view, still)).not.toContain('pull-channels');
  });

  test('is never while it steams, once they are out, or in another method', () => {
    expect(
      reached(
        12,
        core(12, () => 64),
      ),
    ).not.toContain('pull-channels');
    expect(reached(12, cooling, { journal: [wrote('channels-pulled', 240)] })).not.toContain('pull-channels');
    expect(reached(12, cooling, { method: 'hot-bin' })).not.toContain('pull-channels');
  });
});

describe('cool enough for worms', () => {
  test('is a whole day at or below 26.7 C, days after the heat', () => {
    expect(
      reached(
        20,
        core(20, (day) => (day < 8 ? 60 : 26)),
      ),
    ).toContain('cool-enough-for-worms');
    expect(
      reached(
        20,
        core(20, (day) => (day < 8 ? 60 : 28)),
      ),
    ).not.toContain('cool-enough-for-worms');
  });

  test('is not a pile that never warmed, nor one whose probe is silent, nor one with worms', () => {
    expect(
      reached(
        20,
        core(20, () => 18),
      ),
    ).not.toContain('cool-enough-for-worms');
    expect(
      reached(
        22,
        core(20, (day) => (day < 8 ? 60 : 26)),
      ),
    ).not.toContain('cool-enough-for-worms');
    const journal = [wrote('worms-added', 400)];
    expect(
      reached(
        20,
        core(20, (day) => (day < 8 ? 60 : 26)),
        { journal },
      ),
    ).not.toContain('cool-enough-for-worms');
  });
});

test('ready for curing is when a turned pile stays below 45 C a week after a turn, and not before', () => {
  const fallen = (days: number) => core(days, (day) => (day < 12 ? 60 : 38));
  const journal = [wrote('turned', 13 * 24)];
  expect(reached(30, fallen(30), { method: 'turned-windrow', journal })).toContain('ready-for-curing');
  expect(reached(15, fallen(15), { method: 'turned-windrow', journal })).not.toContain('ready-for-curing');
  expect(
    reached(
      30,
      core(30, () => 60),
      { method: 'turned-windrow', journal },
    ),
  ).not.toContain('ready-for-curing');
});

describe('likely finished', () => {
  const quiet = (moisture: number) =>
    merged(
      core(60, (day) => (day < 12 ? 60 : day < 20 ? 35 : 17)),
      course('air', 0, 60 * 24, () => 15, 60),
      course('m', 0, 60 * 24, () => moisture, 60),
    );
  const journal = [wrote('turned', 57 * 24)];

  test('is near the air, moist, and did not wake when turned', () => {
    expect(reached(60, quiet(0.52), { method: 'hot-bin', journal })).toContain('likely-finished');
  });

  test('is never told of a dry pile, or of one nobody has disturbed', () => {
    expect(reached(60, quiet(0.3), { method: 'hot-bin', journal })).not.toContain('likely-finished');
    expect(reached(60, quiet(0.52), { method: 'hot-bin' })).not.toContain('likely-finished');
  });
});

test('a note of the system tells that a milestone was told; the same words by a person do not', () => {
  const note = (id: MilestoneId, by: string | null): JournalEntry => ({
    ...wrote('note', 5),
    note: noteOfMilestone(milestoneWords[id]),
    by,
  });
  expect(milestonesIn(milestoneIds.map((id) => note(id, null)))).toEqual(new Set(milestoneIds));
  expect(milestonesIn(milestoneIds.map((id) => note(id, 'wren')))).toEqual(new Set());
  expect(milestonesIn([{ ...wrote('note', 5), note: 'Milestone: my own' }])).toEqual(new Set());
});
