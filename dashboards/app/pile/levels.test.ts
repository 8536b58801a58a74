import { expect, it } from 'vitest';
import type { LimitsView } from '../../../shared/api/types.ts';
import { allConditions } from '../../../shared/rules/allConditions.ts';
import type { PileMethod } from '../../../shared/yard/method.ts';
import { levelsOf } from './levels.ts';

/** The limits the service sends for a pile nobody tuned, but for one ceiling. */
function limits(method: PileMethod, ceiling?: number): LimitsView {
  const conditions = allConditions.map(({ id, defaults }) => ({
    condition: id,
    parameters: Object.entries(defaults(method)).map(([key, value]) => {
      return { key, value: id === 'too-hot-ceiling' && key === 'limitCelsius' ? (ceiling ?? value) : value };
    }),
  }));
  return { method, conditions } as unknown as LimitsView;
}
const shown = (view: LimitsView) => levelsOf(view).map(({ label, celsius }) => `${label} ${celsius}`);

it('draws the limits in force of a hot method, each by its words, and where the heat record counts', () => {
  expect(shown(limits('static-cage', 68))).toEqual([
    'fire danger 80',
    'ceiling 68',
    'early notice 65',
    'heat record counts 55',
  ]);
});

it('draws the range of a worm bed, and always reaches it', () => {
  expect(shown(limits('worm-bed'))).toEqual(['fire danger 80', 'ceiling 71', 'too warm 28', 'too cold 5']);
  const always = levelsOf(limits('worm-bed')).filter(({ isAlwaysShown }) => isAlwaysShown);
  expect(always.map(({ label }) => label)).toEqual(['too warm', 'too cold']);
});

it('tells any two levels of one chart apart by dash and words, not by colour alone', () => {
  for (const method of ['static-cage', 'worm-bed'] as const) {
    const levels = levelsOf(limits(method));
    expect(new Set(levels.map(({ label }) => label)).size).toBe(levels.length);
  }
});
