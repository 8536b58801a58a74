import { describe, expect, test } from 'vitest';
import { evaluateSanitisation } from './evaluate.ts';
import { defaultSanitisationPolicy as careful } from './policy.ts';
import { findRuleSet } from './ruleSets.ts';
import type { ZoneSeries } from './series.ts';
import { meansOf, pileOf } from './testPile.ts';

const msPerHour = 3_600_000;
const inVessel = findRuleSet('us-pfrp-in-vessel');
const windrow = findRuleSet('us-pfrp-windrow');

function instants(values: readonly (number | null)[], stepMinutes: number): ZoneSeries {
  const samples = values.flatMap((value, index) =>
    value === null ? [] : [{ timeMs: index * stepMinutes * 60_000, value }],
  );
  const rhythm = {
    represents: 'instants',
    intervalMs: stepMinutes * 60_000,
    fromMs: null,
    toMs: null,
  } as const;
  return { position: 'core', channel: 'urn:dev:ow:1_core', samples, ...rhythm };
}

describe('zones', () => {
  test('the coolest monitored zone decides, not the core', () => {
    const series = [meansOf([{ hours: 100, celsius: 65 }]), meansOf([{ hours: 100, celsius: 50 }], 'edge')];
    const result = evaluateSanitisation(inVessel, pileOf(series));
    expect(result.outcome).toBe('not-yet');
    expect(result.plain.totalHours).toBe(0);
    expect(result.zonesCounted).toEqual(['core', 'edge']);
  });

  test('an edge probe that falls silent earns nothing, even while the core is hot', () => {
    const series = [meansOf([{ hours: 100, celsius: 60 }]), meansOf([{ hours: 40, celsius: 57 }], 'edge')];
    const result = evaluateSanitisation(inVessel, pileOf(series));
    expect(result.plain.totalHours).toBe(40);
    expect(result.outcome).toBe('not-yet');
  });

  test('a dead probe stops counting against its zone once its placement is ended', () => {
    const dead = { ...meansOf([{ hours: 40, celsius: 57 }]), channel: 'dead', toMs: 40 * msPerHour };
    const series = [meansOf([{ hours: 100, celsius: 60 }]), dead];
    expect(evaluateSanitisation(inVessel, pileOf(series)).outcome).toBe('consistent');
    const stillPlaced = [series[0]!, { ...dead, toMs: null }];
    expect(evaluateSanitisation(inVessel, pileOf(stillPlaced)).plain.totalHours).toBe(40);
  });

  test('a static cage watched only in its core gets a core record, not a sanitised pile', () => {
    const pile = pileOf([meansOf([{ hours: 80, celsius: 60 }])], { method: 'static-cage' });
    const result = evaluateSanitisation(findRuleSet('us-pfrp-static'), pile);
    expect(result.outcome).toBe('core-record-only');
    expect(result.satisfiedAtMs).toBeNull();
    expect(result.coreRecordAtMs).toBe(72 * msPerHour);
    expect(result.progress).toBeLessThan(1);
    expect(result.cautions[0]).toContain('Core record only');
  });

  test('a static cage watched at the edge as well can be consistent', () => {
    const series = [meansOf([{ hours: 80, celsius: 60 }]), meansOf([{ hours: 80, celsius: 56 }], 'edge')];
    const pile = pileOf(series, { method: 'static-cage' });
    expect(evaluateSanitisation(findRuleSet('us-pfrp-static'), pile).outcome).toBe('consistent');
  });

  test('air is not part of the pile', () => {
    const series = [meansOf([{ hours: 72, celsius: 60 }]), meansOf([{ hours: 72, celsius: 8 }], 'air')];
    expect(evaluateSanitisation(inVessel, pileOf(series)).outcome).toBe('consistent');
  });

  test('a zone that is asked for but not watched keeps the record open', () => {
    const pile = pileOf([meansOf([{ hours: 80, celsius: 60 }])]);
    const result = evaluateSanitisation(inVessel, pile, { ...careful, zones: ['core', 'edge'] });
    expect(result.outcome).toBe('not-yet');
    expect(result.plain.totalHours).toBe(0);
  });
});

describe('holes in the data', () => {
  const withHole = [...Array(40).fill(60), ...Array(6).fill(null), ...Array(40).fill(60)];

  test('a hole ends a run and earns nothing', () => {
    const result = evaluateSanitisation(inVessel, pileOf([instants(withHole, 60)]));
    expect(result.plain).toMatchObject({ totalHours: 78, bestPeriodHours: 39, satisfiedAtMs: null });
    expect(result.coverage[0]?.longestHoleHours).toBeGreaterThan(6);
  });

  test('with gap policy pause the run goes on after the hole, without the hours of the hole', () => {
    const result = evaluateSanitisation(inVessel, pileOf([instants(withHole, 60)]), {
      ...careful,
      gapPolicy: 'pause',
    });
    expect(result.plain.bestPeriodHours).toBe(78);
    expect(result.satisfiedAtMs).toBe((72 + 7) * msPerHour);
    expect(result.evidence.map((row) => row.hours)).toEqual([39, 39]);
  });

  test('swapping the probe or losing one hour costs that hour, not the whole run', () => {
    const old = { ...meansOf([{ hours: 40, celsius: 60 }]), toMs: 40 * msPerHour };
    const late = meansOf([{ hours: 80, celsius: 60 }]);
    const fresh = { ...late, channel: 'new', samples: late.samples.slice(41), fromMs: 40 * msPerHour };
    const result = evaluateSanitisation(inVessel, pileOf([old, fresh]));
    expect(result.satisfiedAtMs).toBe(73 * msPerHour);
    expect(result.plain.bestPeriodHours).toBe(79);
  });

  test('a pause is not allowed when it was cool on the far side of the hole', () => {
    const cooled = [...Array(40).fill(60), null, null, 50, ...Array(40).fill(60)];
    const result = evaluateSanitisation(inVessel, pileOf([instants(cooled, 60)]), {
      ...careful,
      gapPolicy: 'pause',
    });
    expect(result.plain.bestPeriodHours).toBe(39);
  });

  test('a few lost minutes are bridged and shown as less coverage', () => {
    const values = Array.from({ length: 73 * 60 }, (_, minute) => (minute % 60 < 30 ? 60 : null));
    const result = evaluateSanitisation(inVessel, pileOf([instants(values, 1)]));
    expect(result.outcome).toBe('consistent');
    expect(result.evidence[0]?.coverageFraction).toBeGreaterThan(0.4);
    expect(result.evidence[0]?.coverageFraction).toBeLessThan(0.6);
  });

  test('a daily hand reading vouches for the day between two hot ones', () => {
    const result = evaluateSanitisation(inVessel, pileOf([instants([60, 61, 60, 58], 1440)]));
    expect(result.plain.totalHours).toBe(72);
  });
});

describe('journal', () => {
  const dips = Array.from({ length: 6 }, () => [
    { hours: 65, celsius: 58 },
    { hours: 12, celsius: 45 },
  ]).flat();

  test('a windrow may dip at each turn: its hours are added up', () => {
    const turnedOnDays = [1, 2, 3, 4, 5].map((turn) => (turn * 77) / 24 - 0.5);
    const result = evaluateSanitisation(windrow, pileOf([meansOf(dips)], { turnedOnDays }));
    expect(result.outcome).toBe('consistent');
    expect(result.evidence).toHaveLength(6);
  });

  test('a turning with no heat seen after it is not inside the period', () => {
    const turnedOnDays = [2, 4, 6, 8, 15.5];
    const result = evaluateSanitisation(
      windrow,
      pileOf([meansOf([{ hours: 360, celsius: 58 }])], { turnedOnDays }),
    );
    expect(result.outcome).toBe('not-yet');
    expect(result.missing).toEqual(['1 more turning while the pile is at temperature.']);
  });

  test('fresh material clears the hours before it', () => {
    const journal = [{ kind: 'added' as const, timeMs: 60 * msPerHour }];
    const pile = pileOf([meansOf([{ hours: 100, celsius: 60 }])], { journal });
    const result = evaluateSanitisation(inVessel, pile);
    expect(result.plain.bestPeriodHours).toBe(40);
    expect(result.clearedAtMs).toBe(60 * msPerHour);
    expect(result.cautions.join(' ')).toContain('Fresh material was added');
  });

  test('three turns each after three hot days satisfy the core rule of AS 4454, two do not', () => {
    const rule = findRuleSet('au-as4454-windrow');
    const series = [meansOf([{ hours: 300, celsius: 56 }]), meansOf([{ hours: 300, celsius: 30 }], 'edge')];
    expect(evaluateSanitisation(rule, pileOf(series, { turnedOnDays: [3, 6, 9] })).outcome).toBe(
      'consistent',
    );
    const early = evaluateSanitisation(rule, pileOf(series, { turnedOnDays: [3, 5, 8] }));
    expect(early.outcome).toBe('not-yet');
    expect(early.missing[0]).toContain('1 more turning');
  });
});

describe('preconditions', () => {
  const rule = findRuleSet('eu-abp-composting');
  const hour = [meansOf([{ hours: 2, celsius: 72 }])];

  test('pieces written down as too large keep the record open and say so', () => {
    const result = evaluateSanitisation(rule, pileOf(hour, { largestPieceMetres: 0.05 }));
    expect([result.outcome, result.satisfiedAtMs, result.progress]).toEqual(['not-yet', null, 0]);
    expect(result.missing).toEqual(['This rule needs pieces no larger than 12 mm.']);
  });

  test('the guarded total may come from another path of the same rule', () => {
    const course = [meansOf([{ hours: 144, celsius: 65.2 }])];
    const result = evaluateSanitisation(findRuleSet('de-bioabfv'), pileOf(course));
    expect([result.plain.pathId, result.guarded.pathId]).toEqual(['65-3d', '60-6d']);
    expect(result.guarded.satisfiedAtMs).toBe(144 * msPerHour);
    expect(result.cautions.join(' ')).not.toContain('only if the probe reads true');
  });

  test('what nobody wrote down is said to be open, not taken as met', () => {
    const result = evaluateSanitisation(rule, pileOf(hour));
    expect(result.preconditions.map((one) => one.state)).toEqual(['not-recorded', 'not-recorded']);
    expect(result.cautions.join(' ')).toContain(
      'cannot show that: the material is in a closed reactor; pieces',
    );
  });
});

describe('what people are told', () => {
  test('a rule known only from memory says so', () => {
    const pile = pileOf([meansOf([{ hours: 72, celsius: 56 }])]);
    const result = evaluateSanitisation(findRuleSet('ca-ccme-static'), pile);
    expect(result.statusWords).toBe('unconfirmed');
    expect(result.cautions[0]).toContain('unconfirmed');
  });

  test('meeting a rule only inside the probe tolerance is a caution', () => {
    const result = evaluateSanitisation(inVessel, pileOf([meansOf([{ hours: 72, celsius: 55.4 }])]));
    expect(result.outcome).toBe('consistent');
    expect(result.cautions.join(' ')).toContain('only if the probe reads true');
  });

  test('nothing said anywhere promises more than a consistent record', () => {
    const result = evaluateSanitisation(inVessel, pileOf([meansOf([{ hours: 72, celsius: 60 }])]));
    expect(JSON.stringify(result)).not.toMatch(/certified|pathogen-free|guarantee/i);
  });

  test('words follow the unit of the reader', () => {
    const pile = pileOf([meansOf([{ hours: 10, celsius: 60 }])]);
    const result = evaluateSanitisation(inVessel, pile, { ...careful, temperatureUnit: 'F' });
    expect(result.missing).toEqual(['62 h more at or above 131 F, without a break (10.0 of 72 h so far).']);
  });

  test('samples out of order are refused by name', () => {
    const series = instants([60, 60, 60], 60);
    const shuffled = { ...series, samples: [...series.samples].reverse() };
    expect(() => evaluateSanitisation(inVessel, pileOf([shuffled]))).toThrow(
      /urn:dev:ow:1_core must be in rising/,
    );
  });
});
