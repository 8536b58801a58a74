import { describe, expect, test } from 'vitest';
import type { CauseId } from './causes.ts';
import { type Diagnosis, diagnose } from './diagnose.ts';
import type { DiagnosisFacts } from './facts/facts.ts';
import { observationsFrom, situationFrom } from './facts/observationsFrom.ts';
import { airAround, courseThrough, troubledPile, wrote } from './testing.ts';
import type { Trouble } from './trouble.ts';

const diagnosed = (trouble: Trouble, facts: DiagnosisFacts): Diagnosis =>
  diagnose(trouble, observationsFrom(facts), situationFrom(facts));
const chanceOf = (diagnosis: Diagnosis, cause: CauseId) =>
  diagnosis.causes.find((one) => one.cause === cause)?.chance ?? 0;

/** Up to 60 C in three days, then down: a heat that went too soon. */
const shortHeat = (endCelsius: number, days = 9) =>
  courseThrough([
    [0, 14],
    [24, 30],
    [72, 60],
    [days * 24 - 48, endCelsius + 4],
    [days * 24, endCelsius],
  ]);
const neverWarm = (celsius: number, days = 7) =>
  courseThrough([
    [0, 12],
    [48, celsius],
    [days * 24, celsius],
  ]);

interface Story {
  readonly name: string;
  readonly trouble: Trouble;
  readonly facts: DiagnosisFacts;
  readonly cause: CauseId;
}

const stories: readonly Story[] = [
  {
    name: 'dry stall by moisture probe',
    trouble: 'stalled',
    facts: troubledPile(9, { core: shortHeat(22), moistureFraction: 0.29 }),
    cause: 'too-dry',
  },
  {
    name: 'dry stall by hand: no probe, squeeze test and look',
    trouble: 'stalled',
    facts: troubledPile(9, {
      core: shortHeat(22),
      journal: [wrote('squeeze-test', 210, 1.5), wrote('note', 211, null, 'Look: dry and white')],
    }),
    cause: 'too-dry',
  },
  {
    name: 'dry stall in a static cage',
    trouble: 'fell-short',
    facts: troubledPile(6, { method: 'static-cage', core: shortHeat(24, 6), moistureFraction: 0.38 }),
    cause: 'too-dry',
  },
  {
    name: 'sodden stall',
    trouble: 'stalled',
    facts: troubledPile(9, {
      core: shortHeat(26),
      moistureFraction: 0.72,
      journal: [wrote('note', 210, null, 'smell: sour')],
    }),
    cause: 'airless',
  },
  {
    name: 'finished pile: much heat behind it, little food left, moist, not reheating after a turn',
    trouble: 'stalled',
    facts: troubledPile(50, {
      core: courseThrough([
        [0, 14],
        [72, 62],
        [700, 55],
        [1000, 22],
        [1200, 15],
      ]),
      moistureFraction: 0.52,
      materialLeft: { low: 0.05, middle: 0.12, high: 0.25 },
      journal: [wrote('turned', 1100)],
    }),
    cause: 'spent',
  },
  {
    name: 'small bin in frost',
    trouble: 'never-heated',
    facts: troubledPile(8, {
      core: neverWarm(9, 8),
      air: airAround(-4, 8),
      volumeM3: 0.3,
      moistureFraction: 0.55,
    }),
    cause: 'cold-loss',
  },
  {
    name: 'leaf heap short of nitrogen',
    trouble: 'never-heated',
    facts: troubledPile(12, {
      method: 'leaf-heap',
      core: neverWarm(18, 12),
      volumeM3: 2,
      moistureFraction: 0.62,
      mix: { carbonToNitrogen: 62, moistureFraction: 0.6, freeAirSpaceFraction: 0.6 },
    }),
    cause: 'nitrogen-short',
  },
  {
    name: 'cage with blocked channels',
    trouble: 'stalled',
    facts: troubledPile(7, {
      method: 'static-cage',
      core: shortHeat(34, 7),
      volumeM3: 1.4,
      moistureFraction: 0.66,
      journal: [wrote('note', 150, null, 'channels: blocked')],
    }),
    cause: 'air-path-blocked',
  },
  {
    name: 'probe pulled out of the core',
    trouble: 'stalled',
    facts: troubledPile(9, {
      core: courseThrough([
        [0, 14],
        [24, 30],
        [72, 60],
        [150, 58],
        [151, 20],
        [216, 14],
      ]),
      hasDoubtfulProbe: true,
      moistureFraction: 0.55,
    }),
    cause: 'probe-wrong',
  },
  {
    name: 'failed probe shown up by a hand reading and a second core',
    trouble: 'stalled',
    facts: troubledPile(9, {
      core: shortHeat(18),
      otherCoresCelsius: [44],
      journal: [wrote('hand-reading', 205, 46)],
    }),
    cause: 'probe-wrong',
  },
  {
    name: 'packed windrow that reheats after each turn',
    trouble: 'stalled',
    facts: troubledPile(20, {
      method: 'turned-windrow',
      volumeM3: 12,
      moistureFraction: 0.56,
      core: courseThrough([
        [0, 14],
        [72, 58],
        [200, 36],
        [240, 56],
        [300, 52],
        [480, 36],
      ]),
      mix: { carbonToNitrogen: 28, moistureFraction: 0.58, freeAirSpaceFraction: 0.22 },
      journal: [wrote('turned', 200)],
    }),
    cause: 'packed',
  },
  {
    name: 'cooked pile',
    trouble: 'stalled',
    facts: troubledPile(9, {
      core: courseThrough([
        [0, 14],
        [48, 60],
        [96, 75],
        [150, 44],
        [216, 33],
      ]),
      moistureFraction: 0.5,
      materialLeft: { low: 0.4, middle: 0.55, high: 0.7 },
    }),
    cause: 'overheated',
  },
  {
    name: 'fall after a turn that is coming back',
    trouble: 'fell-short',
    facts: troubledPile(9, {
      core: courseThrough([
        [0, 14],
        [72, 60],
        [196, 56],
        [200, 42],
        [216, 50],
      ]),
      moistureFraction: 0.55,
      journal: [wrote('turned', 196)],
    }),
    cause: 'recovering',
  },
  {
    name: 'fresh rich mix too hot',
    trouble: 'too-hot',
    facts: troubledPile(4, {
      core: courseThrough([
        [0, 15],
        [48, 62],
        [96, 70],
      ]),
      volumeM3: 1.5,
      mix: { carbonToNitrogen: 17, moistureFraction: 0.6, freeAirSpaceFraction: 0.4 },
    }),
    cause: 'rich-mix',
  },
  {
    name: 'old dry giant that smells burnt',
    trouble: 'too-hot',
    facts: troubledPile(120, {
      method: 'turned-windrow',
      core: courseThrough([
        [2500, 55],
        [2880, 78],
      ]),
      volumeM3: 60,
      moistureFraction: 0.32,
      journal: [wrote('note', 2870, null, 'smell: burnt')],
    }),
    cause: 'smouldering',
  },
  {
    name: 'open heap in a wet week',
    trouble: 'too-wet',
    facts: troubledPile(20, {
      core: neverWarm(20, 20),
      rainMillimetresWeek: 70,
      journal: [wrote('uncovered', 100), wrote('watered', 30, 10)],
    }),
    cause: 'rain',
  },
  {
    name: 'hot pile that dries itself',
    trouble: 'drying-out',
    facts: troubledPile(10, {
      core: courseThrough([
        [0, 15],
        [48, 60],
        [240, 62],
      ]),
      moistureFraction: 0.4,
      mix: { carbonToNitrogen: 25, moistureFraction: 0.58, freeAirSpaceFraction: 0.55 },
    }),
    cause: 'own-heat',
  },
];

describe('stories with a known cause', () => {
  test.each(stories)('$name: $cause', ({ trouble, facts, cause }) => {
    const diagnosis = diagnosed(trouble, facts);
    const first = diagnosis.causes.slice(0, 3).map((one) => `${one.cause} ${one.chance.toFixed(2)}`);
    expect(diagnosis.causes[0].cause, first.join(', ')).toBe(cause);
    expect(diagnosis.causes[0].for.length).toBeGreaterThan(0);
  });
});

describe('what happened after work on it', () => {
  const before = [
    [0, 14],
    [72, 58],
    [150, 35],
    [168, 33],
  ] as const;
  const reheated = courseThrough([...before, [200, 54], [288, 38]]);
  const flat = courseThrough([...before, [200, 31], [288, 25]]);
  const worked = (kind: 'turned' | 'watered', core: DiagnosisFacts['core']) =>
    diagnosed('stalled', troubledPile(12, { core, journal: [wrote(kind, 168)] }));
  const airOf = (diagnosis: Diagnosis) => chanceOf(diagnosis, 'airless') + chanceOf(diagnosis, 'packed');

  test('reheating after a turn means it was air', () => {
    expect(airOf(worked('turned', reheated))).toBeGreaterThan(2 * airOf(worked('turned', flat)));
  });

  test('reheating after watering means it was water', () => {
    expect(worked('watered', reheated).causes[0].cause).toBe('too-dry');
    expect(chanceOf(worked('watered', flat), 'too-dry')).toBeLessThan(0.1);
  });

  test('not reheating after a turn speaks for a spent pile', () => {
    expect(chanceOf(worked('turned', flat), 'spent')).toBeGreaterThan(
      2 * chanceOf(worked('turned', reheated), 'spent'),
    );
  });

  test('less than 48 hours without reheating says nothing yet', () => {
    const early = troubledPile(8, {
      core: courseThrough([...before, [192, 31]]),
      journal: [wrote('turned', 168)],
    });
    expect(observationsFrom(early)).not.toHaveProperty('afterTurn');
  });

  test('turned and watered together counts once', () => {
    const both = troubledPile(12, { core: reheated, journal: [wrote('turned', 167), wrote('watered', 168)] });
    const seen = observationsFrom(both);
    expect(seen).toHaveProperty('afterBoth', 'reheated');
    expect(seen).not.toHaveProperty('afterTurn');
  });
});

describe('the next check', () => {
  const nextFor = (facts: DiagnosisFacts, trouble: Trouble = 'stalled') =>
    diagnosed(trouble, facts).nextCheck?.check.id ?? null;

  test('nothing known of the moisture: a squeeze test', () => {
    expect(nextFor(troubledPile(9, { core: shortHeat(22) }))).toBe('squeeze-test');
  });

  test('a second core tells another story: a hand thermometer', () => {
    expect(
      nextFor(
        troubledPile(9, {
          core: shortHeat(18),
          moistureFraction: 0.54,
          otherCoresCelsius: [48],
          hasDoubtfulProbe: null,
        }),
      ),
    ).toBe('hand-thermometer');
  });

  test('moist cage that stalls young: look at the air channels', () => {
    const facts = troubledPile(7, {
      method: 'static-cage',
      core: shortHeat(34, 7),
      moistureFraction: 0.66,
      journal: [
        wrote('squeeze-test', 160, 3),
        wrote('note', 161, null, 'smell: none; look: moist and unchanged'),
      ],
    });
    expect(nextFor(facts)).toBe('air-path');
  });

  test('is never one whose answer is known', () => {
    const facts = troubledPile(9, { core: shortHeat(22), journal: [wrote('squeeze-test', 210, 3)] });
    expect(nextFor(facts)).not.toBe('squeeze-test');
  });

  test('says what each answer would mean', () => {
    const { nextCheck } = diagnosed('stalled', troubledPile(9, { core: shortHeat(22) }));
    expect(nextCheck!.answers[0]).toMatchObject({ outcome: 'dust', cause: 'too-dry' });
    expect(nextCheck!.answers.reduce((sum, one) => sum + one.chance, 0)).toBeCloseTo(1, 9);
  });
});

describe('honest words', () => {
  test('nothing known: says so and asks', () => {
    const diagnosis = diagnose('stalled', {}, situationFrom(troubledPile(9, { core: shortHeat(22) })));
    expect(diagnosis.verdict).toBe('open');
    expect(diagnosis.summary).toMatch(/nothing is known/);
    expect(diagnosis.nextCheck).not.toBeNull();
  });

  test('a spent pile is not called so before its moisture is known', () => {
    const { facts } = stories.find(({ cause }) => cause === 'spent')!;
    expect(diagnosed('stalled', facts).verdict).toBe('clear');
    const unknown = diagnosed('stalled', { ...facts, moistureFraction: null });
    expect(unknown.causes[0].cause).toBe('spent');
    expect(unknown.verdict).not.toBe('clear');
  });

  test('evidence carries its number and what one expects', () => {
    const dry = diagnosed('stalled', troubledPile(9, { core: shortHeat(22), moistureFraction: 0.29 }))
      .causes[0];
    expect(dry.for[0]!.text).toBe('moisture is 29 %; work slows sharply below 35 to 40 %');
    expect(dry.for[0]!.times).toBeGreaterThan(5);
  });

  test('evidence is written in the unit of the yard', () => {
    const facts = troubledPile(8, { core: neverWarm(9, 8), air: airAround(-4, 8), volumeM3: 0.3 });
    const { causes } = diagnose('never-heated', observationsFrom(facts), situationFrom(facts), 'F');
    expect(causes[0].for.map((one) => one.text).join('. ')).toMatch(/mean air is 2\d F/);
  });
});
