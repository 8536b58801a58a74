import { expect, test } from 'vitest';
import { canonicaliseSenmlValue } from './senmlUnits.ts';

test.each([
  ['Cel', 61.5, 'temperature', 61.5],
  ['K', 300.15, 'temperature', 27],
  ['%RH', 67, 'relative-humidity', 0.67],
  ['%EL', 98, 'battery', 0.98],
  ['V', 3.6, 'voltage', 3.6],
  ['mV', 3600, 'voltage', 3.6],
  ['/', 0.55, 'moisture', 0.55],
  ['/100', 55, 'moisture', 0.55],
  ['/1000', 550, 'moisture', 0.55],
  ['hPa', 1013, 'other', 101_300],
  ['lat', 60.1, 'other', 60.1],
])('%s %d is %s %d', (unit, value, quantity, canonical) => {
  expect(canonicaliseSenmlValue(unit, value)).toEqual({ ok: true, quantity, value: canonical, doubt: null });
});

test('a percent sign with a number over one is read by the standard and doubted aloud', () => {
  expect(canonicaliseSenmlValue('%', 0.55)).toMatchObject({ value: 0.55, doubt: null });
  expect(canonicaliseSenmlValue('%', 55)).toMatchObject({
    value: 55,
    doubt: expect.stringContaining('send 0.55'),
  });
});

test.each([null, 'degC', 'cel', 'F°', ''])('unit %s is refused and told what is allowed', (unit) => {
  expect(canonicaliseSenmlValue(unit, 1)).toMatchObject({
    ok: false,
    problem: expect.stringContaining('Cel or K'),
  });
});
