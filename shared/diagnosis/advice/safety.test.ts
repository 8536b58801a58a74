import { describe, expect, test } from 'vitest';
import { pileMethods } from '../../yard/method.ts';
import { availableChecks } from '../checks.ts';
import { diagnose } from '../diagnose.ts';
import { situationOf } from '../testing.ts';
import { troubles } from '../trouble.ts';
import { deeds, forbiddenDeeds, isFireDanger } from './safety.ts';

const forbids = (...change: Parameters<typeof situationOf>) => forbiddenDeeds(situationOf(...change));

describe('the safety gate by itself, whatever the data say', () => {
  test.each([
    ['80 C', { hottestCelsius: 80 }],
    ['76 C and rising', { hottestCelsius: 76, isRising: true }],
    ['signs of fire at any reading', { hottestCelsius: 20, hasSignsOfFire: true }],
    ['signs of fire without a reading', { hottestCelsius: null, hasSignsOfFire: true }],
  ])('%s: every deed is forbidden and no check is asked for', (_name, change) => {
    for (const method of pileMethods) {
      const situation = situationOf({ ...change, method });
      expect([...forbiddenDeeds(situation)].sort()).toEqual([...deeds].sort());
      for (const trouble of troubles) {
        expect(availableChecks(trouble, situation, new Set())).toEqual([]);
        expect(diagnose(trouble, {}, situation).nextCheck).toBeNull();
      }
    }
  });

  test('fire danger begins at 80 C, or 76 C and rising', () => {
    expect(isFireDanger(situationOf({ hottestCelsius: 79.9 }))).toBe(false);
    expect(isFireDanger(situationOf({ hottestCelsius: 75.9, isRising: true }))).toBe(false);
    expect(isFireDanger(situationOf({ hottestCelsius: 80 }))).toBe(true);
  });

  test('nitrogen needs moisture evidence that is right, and a pile below 60 C', () => {
    for (const moisture of ['unknown', 'too-dry', 'too-wet'] as const)
      expect(forbids({ moisture })).toContain('add-nitrogen');
    expect(forbids({ moisture: 'fine' })).not.toContain('add-nitrogen');
    expect(forbids({ moisture: 'fine', hottestCelsius: 60 })).toContain('add-nitrogen');
  });

  test('only a hot bin and a turned windrow may be turned', () => {
    const turnable = pileMethods.filter((method) => !forbids({ method }).has('turn'));
    expect(turnable).toEqual(['hot-bin', 'turned-windrow']);
  });

  test('water is forbidden where it is too wet, drying where it is too dry', () => {
    expect(forbids({ moisture: 'too-wet' })).toContain('water');
    expect(forbids({ moisture: 'too-dry' })).toContain('let-dry');
    expect(forbids({ moisture: 'unknown' })).not.toContain('water');
  });

  test('from 71 C it is opened in small bites or not at all', () => {
    const hot = forbids({ hottestCelsius: 71 });
    expect(['turn', 'handful', 'lower', 'cover'].every((deed) => hot.has(deed as 'turn'))).toBe(true);
    expect(hot).not.toContain('open-in-bites');
    expect(forbids({ hottestCelsius: 71, method: 'static-cage' })).toContain('open-in-bites');
  });

  test('a pile whose heat is not known is not opened', () => {
    const unknown = forbids({ hottestCelsius: null });
    expect(unknown).toContain('turn');
    expect(unknown).toContain('handful');
    expect(unknown).not.toContain('push-in');
  });
});
