import { describe, expect, test } from 'vitest';
import type { PileMethod } from '../yard/method.ts';
import { pileConditions } from './allConditions.ts';
import { type LimitValues, limitCautions } from './limitCautions.ts';

/** Every pile condition at the method's defaults, with some values changed. */
function valuesOf(method: PileMethod, change: LimitValues = {}): LimitValues {
  return Object.fromEntries(
    pileConditions.map(({ id, defaults }) => [id, { ...defaults(method), ...change[id] }]),
  ) as LimitValues;
}
const levels = (change: LimitValues, method: PileMethod = 'static-cage') =>
  limitCautions(method, valuesOf(method, change), 'C').map(({ level, condition, key }) => [
    level,
    `${condition}.${key}`,
  ]);

describe('cautions about limits', () => {
  test('say nothing of any method’s own defaults', () => {
    for (const method of ['static-cage', 'hot-bin', 'turned-windrow', 'worm-bed', 'curing-heap'] as const)
      expect(limitCautions(method, valuesOf(method), 'C')).toEqual([]);
  });

  test('refuse fire danger that is switched off, told late or told seldom', () => {
    const fire = 'too-hot-fire-danger';
    expect(levels({ [fire]: { enabled: false } })).toEqual([['refused', `${fire}.enabled`]]);
    expect(levels({ [fire]: { onDelayMinutes: 61 } })).toEqual([['refused', `${fire}.onDelayMinutes`]]);
    expect(levels({ [fire]: { onDelayMinutes: 60 } })).toEqual([['danger', `${fire}.onDelayMinutes`]]);
    expect(levels({ [fire]: { minimumMinutesBetweenTexts: 241 } })[0]![0]).toBe('refused');
  });

  test('warn of a ceiling above 71 C, one that comes after fire danger, one that waits, and none', () => {
    const ceiling = 'too-hot-ceiling';
    expect(levels({ [ceiling]: { limitCelsius: 71 } })).toEqual([]);
    expect(levels({ [ceiling]: { limitCelsius: 71.5 } })).toEqual([['danger', `${ceiling}.limitCelsius`]]);
    const after = { [ceiling]: { limitCelsius: 75 }, 'too-hot-fire-danger': { limitCelsius: 74 } };
    expect(levels(after).filter(([level]) => level === 'danger').length).toBe(2);
    expect(levels({ [ceiling]: { onDelayMinutes: 90 } })).toEqual([['danger', `${ceiling}.onDelayMinutes`]]);
    expect(levels({ [ceiling]: { enabled: false, limitCelsius: 78 } })).toEqual([
      ['danger', `${ceiling}.enabled`],
    ]);
  });

  test('put the gravest first, in the reader’s unit', () => {
    const change = {
      'too-hot-early-notice': { limitCelsius: 74 },
      'too-hot-ceiling': { limitCelsius: 74 },
      'too-hot-fire-danger': { enabled: false },
    };
    const found = limitCautions('static-cage', valuesOf('static-cage', change), 'F');
    expect(found.map(({ level }) => level)).toEqual(['refused', 'danger', 'mind']);
    expect(found[1]!.says).toContain('160 F');
  });

  test('mind worms where there are worms', () => {
    const warm = { 'too-cold-range': { highCelsius: 34 } };
    expect(levels(warm, 'worm-bed')).toEqual([['mind', 'too-cold-range.highCelsius']]);
    expect(levels(warm, 'curing-heap')).toEqual([]);
  });
});
