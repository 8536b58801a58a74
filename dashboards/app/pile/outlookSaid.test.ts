import { describe, expect, it } from 'vitest';
import type { OutlookView } from '../../../shared/api/types.ts';
import { ceilingWords, chanceWords, comingWords, missingWords, trustWords } from './outlookSaid.ts';

type Forecast = NonNullable<OutlookView['forecast']>;

const band = (low: number, middle: number, high: number) => ({ low, middle, high });
const never = { probability: 0, days: band(9, 9, 9) };
const forecast: Forecast = {
  path: { startMs: 0, stepMs: 1, low: [], middle: [], high: [] },
  ...{ horizonDays: 9, ceilingCelsius: 71, recentErrorKelvin: 0.4 },
  ...{ ceiling: never, nearAir: never, dry: never },
  daysAbove55: band(0, 0, 0),
};
const outlook = (change: Partial<OutlookView>): OutlookView => {
  return { state: 'too-early', hoursRead: 30, hoursNeeded: 48, lastCoreMs: null, forecast: null, ...change };
};

describe('what is to come, in words', () => {
  it('says in how many hours the ceiling is reached, with its band and chance', () => {
    const ceiling = { probability: 0.8, days: band(0.4, 0.6, 1.5) };
    expect(ceilingWords({ ...forecast, ceiling }, 66)).toBe(
      'It may come to its ceiling of 71 C in about 14 h (10 h to 36 h): 4 in 5.',
    );
    const late = { probability: 0.3, days: band(2, 9, 9) };
    expect(ceilingWords({ ...forecast, ceiling: late }, 60)).toMatch(/within 9 days: 3 in 10/);
  });

  it('says when it is not likely, and when it is there already', () => {
    expect(ceilingWords(forecast, 60)).toBe(
      'Not likely to come to its ceiling of 71 C within 9 days (very unlikely).',
    );
    expect(ceilingWords(forecast, 72)).toBe('It is above its ceiling of 71 C now.');
  });

  it('says what else comes only when it is likely enough to matter', () => {
    expect(comingWords(forecast)).toEqual([]);
    const coming = comingWords({
      ...forecast,
      daysAbove55: band(2.2, 4, 6.6),
      nearAir: { probability: 0.5, days: band(6, 8, 9) },
      dry: { probability: 0.4, days: band(3, 5, 8) },
    });
    expect(coming).toEqual([
      '55 C or more for 2 to 7 days of the next 9 days.',
      'Cooled to near the air in 6 to 9 days: 5 in 10.',
      'Dry in 3 to 8 days if nobody waters it: 2 in 5 (estimated from its heat).',
    ]);
  });

  it('says chances as people do', () => {
    expect([0.01, 0.2, 0.3, 0.8, 0.99].map(chanceWords)).toEqual([
      'very unlikely',
      '1 in 5',
      '3 in 10',
      '4 in 5',
      'nearly certain',
    ]);
  });

  it('owns up when it has followed the pile badly', () => {
    expect(trustWords(forecast)).not.toMatch(/trust it little/);
    expect(trustWords({ ...forecast, recentErrorKelvin: 3 })).toMatch(/trust it little/);
  });
});

describe('why there is no forecast', () => {
  it('says how much more must be read', () => {
    expect(missingWords(outlook({}), 0)).toMatch(/30 hours .* 48 are needed. About 18 more hours/);
    expect(missingWords(outlook({ hoursRead: 3 }), 0)).toMatch(/About 2 more days/);
  });

  it('says that the core is silent, that nobody measures it, or that such a pile has none', () => {
    const lastCoreMs = 1_000_000_000;
    const silent = outlook({ state: 'core-silent', lastCoreMs });
    expect(missingWords(silent, lastCoreMs + 20 * 3_600_000)).toMatch(/nothing good for 20 h/);
    expect(missingWords(outlook({ state: 'no-core' }), 0)).toMatch(/no core probe/);
    expect(missingWords(outlook({ state: 'not-modelled' }), 0)).toMatch(/does not heat by itself/);
    expect(missingWords(outlook({ state: 'ended' }), 0)).toMatch(/has ended/);
  });
});
