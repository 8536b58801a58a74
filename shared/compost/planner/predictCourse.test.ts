import { describe, expect, test } from 'vitest';
import { precomposted } from '../pileModel/scenarios.ts';
import { partOfLine } from './amounts.ts';
import { type CompostedFirst, compostFirst } from './compostFirst.ts';
import { containerOf } from './container.ts';
import { plannedMix } from './mixRanges.ts';
import { materialOfMix, pileOf } from './pilePlan.ts';
import type { Plan } from './plan.ts';
import { type CourseAnswer, type CourseQuestion, predictCourse } from './predictCourse.ts';
import { normalOf, quasiRandom } from './quasiRandom.ts';
import { courseQuestion } from './question.ts';
import { planOf } from './testPlan.ts';

function answerOf(question: CourseQuestion): { answer: CourseAnswer; progress: number[] } {
  const progress: number[] = [];
  const work = predictCourse(question);
  let step = work.next();
  for (; !step.done; step = work.next()) progress.push(step.value);
  return { answer: step.value, progress };
}

const own = (bulkDensity: number) => ({
  moistureFraction: null,
  nitrogenFractionDry: null,
  carbonToNitrogen: null,
  ashFractionDry: 0.2,
  bulkDensity,
});

/** Litter and shredded straw, near C:N 20, soaked: the trade's too-hot mix. */
const rich = planOf([
  ['broiler-litter', { amount: 300, own: own(350) }],
  ['straw-general', { amount: 83, own: own(110) }],
  ['water', { amount: 320 }],
]);

function materialOf(plan: Plan) {
  const made = materialOfMix(plannedMix(plan).figures!, plan.running.startCelsius);
  if ('missing' in made) throw new Error(made.missing);
  return made.material;
}

function questionOf(
  plan: Plan,
  material = materialOf(plan),
  cubicMetres = plannedMix(plan).figures!.cubicMetres,
) {
  const { ranges } = plannedMix(plan);
  return courseQuestion(
    plan,
    pileOf(plan, containerOf(plan.container), { cubicMetres, channelCount: 6 }, material),
    ranges!,
  );
}

function first(plan: Plan, lineKey: string, days: number): CompostedFirst {
  const parts = plan.lines.map((line) => ({ ...partOfLine(line, plan).part!, key: line.key }));
  const answer = compostFirst(parts, lineKey, { days, packingFraction: 0.2, startCelsius: 14 });
  if (!answer.ok) throw new Error(answer.why);
  return answer.first;
}

describe('the course to expect', () => {
  const question = { ...questionOf(rich), draws: 7 };
  const { answer, progress } = answerOf(question);

  test('tells how far it is, run by run, up to the whole', () => {
    expect(progress).toHaveLength(8);
    expect(progress.at(-1)).toBe(1);
    expect(progress.every((share, index) => index === 0 || share > progress[index - 1]!)).toBe(true);
  });

  test('the same question gives the same answer', () => {
    expect(answerOf(question).answer).toEqual(answer);
  });

  test('the band holds the typical course at every hour, and is a band', () => {
    answer.middle.forEach((celsius, row) => {
      expect(answer.low[row]).toBeLessThanOrEqual(celsius);
      expect(answer.high[row]).toBeGreaterThanOrEqual(celsius);
    });
    expect(answer.daysAbove55.high).toBeGreaterThan(answer.daysAbove55.low);
  });

  test('a dry mix does not heat, whichever way the draws fall', () => {
    const dry = planOf([
      ['straw-general', { amount: 120, own: own(160) }],
      ['leaves-loose-and-dry', { amount: 40, own: own(120) }],
    ]);
    const { shareReaching55, peakCelsius } = answerOf({ ...questionOf(dry), draws: 5 }).answer;
    expect(shareReaching55).toBe(0);
    expect(peakCelsius.middle).toBeLessThan(40);
  });

  test('the trade’s lesson: the rich mix is hot for weeks, composted first it is not', () => {
    const composted = first(rich, 'all', 21);
    const after = answerOf({
      ...questionOf(rich, composted.material, composted.figures.cubicMetres),
      draws: 0,
    }).answer;
    expect(answer.daysAbove55.middle).toBeGreaterThan(7);
    expect(after.daysAbove55.middle).toBeLessThan(answer.daysAbove55.middle / 2);
    expect(after.peakCelsius.middle).toBeLessThan(answer.peakCelsius.middle);
  });
});

describe('composting first', () => {
  test('all of it leaves the pools the model’s own pre-composted cage has', () => {
    const expected = precomposted(materialOf(rich), 14);
    const { material } = first(rich, 'all', 14);
    expect(material.degradableFraction).toBeCloseTo(expected.degradableFraction, 9);
    expect(material.fastShareFraction).toBeCloseTo(expected.fastShareFraction, 9);
    expect(material.slowRatePerDay).toBeCloseTo(expected.slowRatePerDay, 9);
  });

  test('one ingredient leaves more to burn than all of it and less than none', () => {
    const left = (key: string) => first(rich, key, 14).material.degradableFraction;
    expect(left('l1')).toBeLessThan(materialOf(rich).degradableFraction);
    expect(left('l1')).toBeGreaterThan(left('all'));
  });

  test('nitrogen and dry matter are lost, and the mix is as wet as before', () => {
    const composted = first(rich, 'l1', 14);
    expect(composted.nitrogenShareLost).toBeGreaterThan(0);
    expect(composted.nitrogenShareLost).toBeLessThan(0.4);
    expect(composted.dryKilogramsLost).toBeGreaterThan(0);
    expect(composted.figures.moistureFraction).toBeCloseTo(plannedMix(rich).figures!.moistureFraction, 1);
  });

  test('without a bulk density it says what is missing', () => {
    const plan = planOf([['coffee-grounds-spent', { amount: 50 }]]);
    const parts = [{ ...partOfLine(plan.lines[0]!, plan).part!, key: 'l1' }];
    expect(compostFirst(parts, 'all', { days: 7, packingFraction: 0.2, startCelsius: 10 })).toEqual({
      ok: false,
      why: 'The course needs the bulk density of every ingredient.',
    });
  });
});

test('draws are spread over the whole of each dimension, and normal ones are centred', () => {
  const points = Array.from({ length: 200 }, (_, index) => quasiRandom(index + 1));
  for (let dimension = 0; dimension < 8; dimension += 1) {
    const values = points.map((point) => point[dimension]!);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(mean).toBeCloseTo(0.5, 1);
    expect(Math.min(...values)).toBeLessThan(0.05);
    expect(Math.max(...values)).toBeGreaterThan(0.95);
  }
  expect(normalOf(0.975)).toBeCloseTo(1.95996, 4);
  expect(normalOf(0.025)).toBeCloseTo(-1.95996, 4);
});
