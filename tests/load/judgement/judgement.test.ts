import { beforeAll, describe, expect, test } from 'vitest';
import type { ConditionId } from '../../../shared/alarms/alarm.ts';
import { conditionIds } from '../../../shared/alarms/alarm.ts';
import { allConditions } from '../../../shared/rules/allConditions.ts';
import { diagnoseStory } from './diagnosis.ts';
import { playStory } from './playStory.ts';
import { episodesOf, type ScoredStory, scoreCondition, scoreStory, textsPerMonth } from './score.ts';
import { makeStories, makeStory, seedSets } from './stories.ts';
import { type StoryKind, storyKinds } from './storyKinds.ts';
import { conditionTable } from './table.ts';
import { notTold, truths } from './truth.ts';

const kindOf = (name: string): StoryKind => storyKinds.find((kind) => kind.name === name)!;

/** A few of each kind that matters most, on seeds nobody tunes on, without the mixture's chance. */
function storiesOf(names: readonly string[], each: number): ScoredStory[] {
  return names.flatMap((name, place) =>
    Array.from({ length: each }, (_, turn) => {
      const seed = seedSets.holdOut + 50_000 + 100 * place + turn;
      return scoreStory(makeStory(seed, `test-${name}-${turn}`, kindOf(name)));
    }),
  );
}

let stories: ScoredStory[];
beforeAll(() => {
  stories = [
    // The well-run piles of the bench's own mixture, so that this rate is the bench's.
    ...makeStories('holdOut', 60)
      .filter(({ kind }) => kind.startsWith('well-run'))
      .map(scoreStory),
    ...storiesOf(['overheats', 'runs away', 'built too dry', 'packed sodden', 'dries out', 'frozen out'], 3),
  ];
}, 120_000);

const recall = (condition: ConditionId) => {
  const { found, episodes } = scoreCondition(condition, stories);
  return { episodes, share: found / episodes };
};
const precision = (condition: ConditionId) => {
  const { right, alarms, arguable } = scoreCondition(condition, stories);
  return right / Math.max(1, alarms - arguable);
};

describe('the judgement, against what the simulated piles were really like', () => {
  test('healthy piles send less than one text a month', () => {
    const healthy = stories.filter((story) => story.healthy);
    expect(healthy.length).toBeGreaterThan(12);
    expect(textsPerMonth(healthy)).toBeLessThan(1);
  });

  test('hardly ever leaves people without any text about a pile in trouble', () => {
    const troubled = stories.filter(({ healthy, spec }) => !healthy && spec.faults.length === 0);
    expect(troubled.length).toBeGreaterThan(10);
    expect(troubled.filter(({ judged }) => judged.texts.length === 0).length).toBeLessThanOrEqual(1);
  });

  test('names the injected cause first or second in most troubles', () => {
    const asked = stories.flatMap(diagnoseStory);
    expect(asked.length).toBeGreaterThan(15);
    expect(asked.filter(({ rank }) => rank <= 2).length / asked.length).toBeGreaterThan(0.7);
    expect(asked.filter((one) => one.rankAfterSqueeze <= 2).length / asked.length).toBeGreaterThan(0.85);
  });

  test.each([
    ['too-hot-ceiling', 4, 0.95],
    ['too-hot-fire-danger', 3, 0.95],
    ['too-cold-never-heated', 5, 0.9],
    ['drying-out-measured', 3, 0.9],
    ['stalled', 3, 0.4],
  ] as const)('finds %s (at least %i episodes, recall at least %d)', (condition, episodes, share) => {
    const found = recall(condition);
    expect(found.episodes).toBeGreaterThanOrEqual(episodes);
    expect(found.share).toBeGreaterThanOrEqual(share);
  });

  test.each([
    ['too-hot-ceiling', 0.9],
    ['too-hot-fire-danger', 0.9],
    ['too-cold-never-heated', 0.9],
    ['stalled', 0.6],
  ] as const)('is right when it says %s', (condition, share) => {
    expect(precision(condition)).toBeGreaterThanOrEqual(share);
  });

  test('finds every probe that falls silent and every sensor that dies', () => {
    const silent = makeStories('holdOut', 150)
      .filter(({ faults }) => faults.some(({ kind }) => kind === 'silent' || kind === 'dies'))
      .slice(0, 5)
      .map(scoreStory);
    for (const condition of ['probe-silent', 'probe-bad-values'] as const) {
      const { found, episodes, alarms, right } = scoreCondition(condition, silent);
      expect([found, right]).toEqual([episodes, alarms]);
    }
    expect(scoreCondition('probe-silent', silent).episodes).toBeGreaterThan(0);
    expect(scoreCondition('probe-bad-values', silent).episodes).toBeGreaterThan(0);
  });
});

describe('the bench itself', () => {
  test('has truth, or says why not, for every condition there is', () => {
    const without = conditionIds.filter((id) => truths[id] === undefined && notTold[id] === undefined);
    expect(without).toEqual([]);
    for (const { id } of allConditions) expect(conditionTable(stories)).toContain(id);
  });

  test('tells the same stories every time, and shares no seed between its two sets', () => {
    const one = makeStories('holdOut', 3);
    expect(JSON.stringify(makeStories('holdOut', 60).slice(0, 3))).toBe(JSON.stringify(one));
    const seeds = (set: 'tuning' | 'holdOut') => new Set(makeStories(set, 60).map(({ seed }) => seed));
    expect([...seeds('tuning')].filter((seed) => seeds('holdOut').has(seed))).toEqual([]);
    expect(playStory(one[0]!).coreCelsius).toEqual(playStory(one[0]!).coreCelsius);
  });

  test('has stories of every method, healthy and troubled', () => {
    const told = makeStories('holdOut', 200);
    expect(new Set(told.map(({ method }) => method)).size).toBe(7);
    expect(told.filter(({ cause }) => cause !== null).length).toBeGreaterThan(60);
    expect(told.filter(({ faults }) => faults.length > 0).length).toBeGreaterThan(30);
  });

  test('joins a stretch over doubt, parts it where the thing did not hold, drops what was short', () => {
    const rows = Int8Array.from([0, 1, 1, -1, 1, 1, 0, 1, 0, ...Array(6).fill(1)]);
    const found = episodesOf({ rows, leastHours: 0.5, earlyHours: 0, lateHours: 0 });
    expect(found.map(({ fromMs, toMs }) => (toMs - fromMs) / 600_000)).toEqual([5, 6]);
  });
});
