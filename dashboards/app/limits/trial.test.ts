import { describe, expect, test } from 'vitest';
import type { LimitCondition, LimitParameter } from '../../../shared/api/types.ts';
import { fromShown, levelOf, toShown, unitShown, valueWords } from './showing.ts';
import { changesBetween, ofPile, valuesOf, withCondition, withValue } from './trial.ts';

const number = (key: string, unit: string, value: number): LimitParameter => ({
  ...{ key, unit, description: null, kind: 'number', minimum: 0, maximum: 100, nullable: false },
  ...{ default: value, value },
});
const limit = number('limitCelsius', 'C', 71);
const deadband = number('deadbandCelsius', 'C', 2);
const moisture = number('limitFraction', 'fraction', 0.6);
const conditions: LimitCondition[] = [
  { condition: 'too-hot-ceiling', name: '', source: '', parameters: [limit, deadband] },
  { condition: 'drying-out-measured', name: '', source: '', parameters: [moisture] },
  { condition: 'probe-silent', name: '', source: '', parameters: [] },
];

describe('limits on trial', () => {
  test('hold only what is not the method’s own', () => {
    const changed = withValue({}, 'too-hot-ceiling', limit, 68);
    expect(changed).toEqual({ 'too-hot-ceiling': { limitCelsius: 68 } });
    expect(withValue(changed, 'too-hot-ceiling', limit, 71)).toEqual({});
    expect(withValue(changed, 'too-hot-ceiling', deadband, 1)).toEqual({
      'too-hot-ceiling': { limitCelsius: 68, deadbandCelsius: 1 },
    });
    expect(withCondition(changed, 'too-hot-ceiling', null)).toEqual({});
  });

  test('are compared number by number, against any other set', () => {
    const one = { 'too-hot-ceiling': { limitCelsius: 68 } };
    const other = { 'drying-out-measured': { limitFraction: 0.55 } };
    const changes = changesBetween(conditions, one, other).map(({ condition, from, to }) => [
      condition,
      from,
      to,
    ]);
    expect(changes).toEqual([
      ['too-hot-ceiling', 68, 71],
      ['drying-out-measured', 0.6, 0.55],
    ]);
    expect(valuesOf(conditions, one)['too-hot-ceiling']).toEqual({ limitCelsius: 68, deadbandCelsius: 2 });
  });

  test('leave out what is judged of probes and of the service', () => {
    expect(ofPile(conditions).map(({ condition }) => condition)).toEqual([
      'too-hot-ceiling',
      'drying-out-measured',
    ]);
  });
});

describe('numbers in the yard’s unit', () => {
  test('have no 32 in a difference, and come back as they went', () => {
    expect([toShown(limit, 71, 'F'), toShown(deadband, 2, 'F')]).toEqual([159.8, 3.6]);
    for (const [parameter, value] of [
      [limit, 68.5],
      [deadband, 1.5],
      [moisture, 0.55],
    ] as const)
      for (const unit of ['C', 'F'] as const)
        expect(fromShown(parameter, toShown(parameter, value, unit), unit)).toBeCloseTo(value, 9);
  });

  test('are said with their unit', () => {
    expect(valueWords(limit, 71, 'F')).toBe('159.8 F');
    expect(valueWords(moisture, 0.6, 'C')).toBe('60 %');
    expect(unitShown(number('fallingCelsiusPerDay', 'C/d', 3), 'F')).toBe('F/d');
    expect(valueWords(number('enabled', '', 0), false, 'C')).toBe('not judged');
  });

  test('are drawn as a line only where they are a level', () => {
    expect([limit, deadband, moisture].map(levelOf)).toEqual(['heat', null, 'moisture']);
    expect(levelOf(number('riseAboveAirCelsius', 'C', 10))).toBeNull();
  });
});
