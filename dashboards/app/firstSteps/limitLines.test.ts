import { expect, it } from 'vitest';
import type { MethodLimits } from '../../../shared/api/types.ts';
import { display } from '../../common/format.ts';
import { limitLines } from './limitLines.ts';

const cage: MethodLimits = {
  ...{ method: 'static-cage', ceilingCelsius: 71, fireCelsius: 80, tooLongDays: 14 },
  ...{ neverHeatedDays: 4, neverHeatedCelsius: 40, dryBelowFraction: 0.6, wetAboveFraction: 0.78 },
  ...{ keepFromCelsius: 5, keepToCelsius: 28, stalledBelowCelsius: 40 },
};

it('says each limit in a sentence, in the unit of the yard', () => {
  expect(limitLines(cage).join(' ')).toMatch(
    /71 C.*80 C.*40 C after 4 days.*14 hot days.*5 C and 28 C.*60 %.*78 %/,
  );
  display.value = { unit: 'F', timeZone: 'UTC' };
  // 160 F is the published form of the ceiling (North Carolina DEQ).
  expect(limitLines(cage)[0]).toContain('160 F');
  display.value = { unit: 'C', timeZone: 'UTC' };
});

it('leaves out what the method does not know', () => {
  const bed = {
    ...cage,
    tooLongDays: null,
    neverHeatedDays: null,
    keepFromCelsius: null,
    keepToCelsius: null,
  };
  const lines = limitLines(bed).join(' ');
  expect(lines).not.toMatch(/hot days|between|after 4/);
  expect(lines).toContain('It need not get hot.');
});
