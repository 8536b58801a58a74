import { afterEach, describe, expect, it } from 'vitest';
import * as format from './format.ts';

const { age, duration, showAs, temperature, temperatureChange, trend } = format;
const celsius = { temperatureUnit: 'C', timeZone: 'Europe/London' } as const;
const fahrenheit = { temperatureUnit: 'F', timeZone: 'America/New_York' } as const;
afterEach(() => showAs(celsius));

describe('temperatures', () => {
  it('are in the yard’s unit, differences without the 32', () => {
    showAs(fahrenheit);
    expect([temperature(71), temperature(-40), temperatureChange(1)]).toEqual(['159.8 F', '-40.0 F', '1.8']);
    showAs(celsius);
    expect([temperature(71), temperature(55, 0), temperatureChange(-1.25)]).toEqual([
      '71.0 C',
      '55 C',
      '-1.3',
    ]);
  });

  it('say where they are going; nothing where nothing is known', () => {
    expect(trend(null)).toBeNull();
    expect(trend(0.04)).toEqual({ word: 'steady', detail: '', turn: 0 });
    expect(trend(1.44)).toEqual({ word: 'rising', detail: '1.4 C/h', turn: 1 });
    showAs(fahrenheit);
    expect(trend(-1)).toEqual({ word: 'falling', detail: '1.8 F/h', turn: -1 });
  });
});

describe('times', () => {
  it.each([
    [0, '0 s'],
    [-5000, '0 s'],
    [59_000, '59 s'],
    [89 * 60_000, '89 min'],
    [90 * 60_000, '2 h'],
    [47 * 3_600_000, '47 h'],
    [49 * 3_600_000, '2 d'],
  ])('%i ms lasts %s', (milliseconds, shown) => {
    expect(duration(milliseconds)).toBe(shown);
  });

  it('are as old as they are', () => {
    expect([age(89_000), age(90_000), age(3 * 3_600_000)]).toEqual(['just now', '2 min ago', '3 h ago']);
  });

  it('are told in the yard’s zone, over midnight and a change of clocks', () => {
    const timeMs = Date.UTC(2026, 9, 25, 0, 30);
    showAs(celsius);
    expect([format.clockTime(timeMs), format.hourOfDay(timeMs), format.shortDay(timeMs)]).toEqual([
      '01:30',
      1,
      '25 Oct',
    ]);
    expect(format.clockTime(timeMs + 3_600_000)).toBe('01:30');
    showAs(fahrenheit);
    expect([format.dayAndTime(timeMs), format.hourOfDay(timeMs)]).toEqual(['24 Oct 20:30', 20]);
    expect(format.hourOfDay(Date.UTC(2026, 0, 1, 5))).toBe(0);
  });
});
