import { describe, expect, test } from 'vitest';
import { simulateCourse } from './course.ts';
import { measureCourse } from './courseMeasures.ts';
import { pileParameters } from './parameters.ts';
import {
  driedOutCage,
  freshRichCage,
  freshRichCageWithoutChannels,
  gardenBin,
  ordinaryCage,
  precompostedCage,
  runAwayHeap,
  type Scenario,
  smallHeap,
  soddenBin,
  tooDryBin,
  turnedWindrow,
} from './scenarios.ts';
import { type WeatherAt, yearlyWeather } from './weather.ts';

const spring = yearlyWeather({
  meanCelsius: 11,
  yearlySwingCelsius: 7,
  dailySwingCelsius: 4,
  startDayOfYear: 120,
});
const winter = yearlyWeather({
  meanCelsius: 11,
  yearlySwingCelsius: 8,
  dailySwingCelsius: 3,
  startDayOfYear: 5,
});

function run({ parameters, interventions }: Scenario, days = 365, weatherAt: WeatherAt = spring) {
  const course = simulateCourse(parameters, { days, outputStepSeconds: 3600, weatherAt, interventions });
  return { course, measures: measureCourse(course) };
}

function longestRunDays(values: Float32Array, test: (celsius: number) => boolean): number {
  let [longest, run] = [0, 0];
  for (const value of values) {
    run = test(value) ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest / 24;
}

describe('published ranges (reference 7.1, 7.4)', () => {
  test('un-turned 1 m3 garden bin: 40 C in 1-3 days, 50-65 C within 2-6, one to three weeks above 40', () => {
    const { measures } = run(gardenBin);
    expect(measures.daysTo40).toBeGreaterThan(1);
    expect(measures.daysTo40).toBeLessThan(3);
    expect(measures.peakCelsius).toBeGreaterThan(50);
    expect(measures.peakCelsius).toBeLessThan(65);
    expect(measures.peakDay).toBeGreaterThan(2);
    expect(measures.peakDay).toBeLessThan(6);
    expect(measures.daysAbove40).toBeGreaterThan(7);
    expect(measures.daysAbove40).toBeLessThan(21);
  });

  test('turned windrow: 40 C in 1-3 days, 55 C in 3-7, hot for 3-9 weeks', () => {
    const { measures } = run(turnedWindrow);
    expect(measures.daysTo40).toBeGreaterThan(1);
    expect(measures.daysTo40).toBeLessThan(3);
    expect(measures.daysTo55).toBeGreaterThan(3);
    expect(measures.daysTo55).toBeLessThan(7);
    expect(measures.daysAbove40).toBeGreaterThan(21);
    expect(measures.daysAbove40).toBeLessThan(63);
  });

  test('after a year of work a quarter to half of the volume is left, and 40-60 % of the dry matter is gone', () => {
    for (const scenario of [gardenBin, ordinaryCage, freshRichCage, turnedWindrow]) {
      const { measures } = run(scenario);
      expect(measures.finalVolumeShare, scenario.name).toBeGreaterThan(0.25);
      expect(measures.finalVolumeShare, scenario.name).toBeLessThan(0.5);
      expect(measures.dryMassLossFraction, scenario.name).toBeGreaterThan(0.4);
      expect(measures.dryMassLossFraction, scenario.name).toBeLessThan(0.6);
    }
  });

  test('a cage settles most in its first two weeks', () => {
    const { course } = run(ordinaryCage);
    const { volumeM3 } = course.series;
    const lostBy = (day: number) => volumeM3[0]! - volumeM3[day * 24]!;
    expect(lostBy(14) / lostBy(365)).toBeGreaterThan(0.5);
  });
});

describe("the trade's lesson", () => {
  test('a fresh rich mix in a cage stays 60-71 C for many weeks', () => {
    const { course } = run(freshRichCage);
    expect(longestRunDays(course.series.coreCelsius, (c) => c >= 60 && c <= 71)).toBeGreaterThan(35);
  });

  test('the same material pre-composted two weeks first does not', () => {
    const { course, measures } = run(precompostedCage);
    expect(longestRunDays(course.series.coreCelsius, (c) => c >= 60)).toBeLessThan(14);
    expect(measures.daysTo55).not.toBeNull();
    expect(measures.daysAbove65).toBeLessThan(4);
  });

  test('without channels the core of the same cage runs short of oxygen sooner and ends less finished', () => {
    const open = run(freshRichCage);
    const closed = run(freshRichCageWithoutChannels);
    const lowest = (values: Float32Array) => values.reduce((low, value) => Math.min(low, value), 1);
    expect(lowest(closed.course.series.coreOxygenFraction)).toBeLessThan(0.01);
    expect(lowest(open.course.series.coreOxygenFraction)).toBeGreaterThan(0.02);
    expect(closed.measures.dryMassLossFraction).toBeLessThan(open.measures.dryMassLossFraction - 0.1);
  });
});

describe('troubles', () => {
  test('no pile with living heat only passes 71.6 C, however rich', () => {
    const shape = { kind: 'box', widthMetres: 3, lengthMetres: 3, heightMetres: 2.5 } as const;
    const material = { ...freshRichCage.parameters.material, startCelsius: 30, degradableFraction: 0.83 };
    const parameters = pileParameters({ shape, material, surface: { wallResistance: 1 } });
    const { measures } = run({ name: '', parameters, interventions: [] }, 60);
    expect(measures.peakCelsius).toBeLessThan(71.7);
    expect(measures.peakCelsius).toBeGreaterThan(65);
  });

  test('heat-tolerant life and chemistry in a big dry heap pass the fire mark of 80 C', () => {
    const { measures } = run(runAwayHeap, 60);
    expect(measures.peakCelsius).toBeGreaterThan(80);
    expect(measures.peakCelsius).toBeLessThan(100);
  });

  test('too dry, too wet: never heats', () => {
    for (const scenario of [tooDryBin, soddenBin])
      expect(run(scenario).measures.peakCelsius, scenario.name).toBeLessThan(25);
    expect(run(soddenBin, 30).course.series.coreOxygenFraction.at(-1)).toBeLessThan(0.01);
  });

  test('small and cold never heats; the same small heap in summer warms but not to 55 C', () => {
    expect(run(smallHeap, 60, winter).measures.daysTo40).toBeNull();
    expect(run(smallHeap, 60).measures.daysTo55).toBeNull();
  });

  test('an unwatered cage dries and stalls with most of its food left; water wakes it again', () => {
    const { course, measures } = run(driedOutCage, 60);
    expect(measures.peakCelsius).toBeGreaterThan(55);
    const { finalState, series } = course;
    expect(series.coreCelsius.at(-1)).toBeLessThan(series.airCelsius.at(-1)! + 12);
    expect(series.coreMoistureFraction.at(-1)).toBeLessThan(0.3);
    const food = (state: typeof finalState) =>
      [...state.fastKg, ...state.slowKg].reduce((sum, kg) => sum + kg, 0);
    const fresh = run(driedOutCage, 0.01).course.finalState;
    expect(food(finalState) / food(fresh)).toBeGreaterThan(0.5);
    const rescue = { atSeconds: 40 * 86_400, kind: 'water', litres: 300, celsius: 15 } as const;
    const woken = run({ ...driedOutCage, interventions: [...driedOutCage.interventions, rescue] }, 60);
    const late = woken.course.series.coreCelsius.subarray(41 * 24);
    expect(Math.max(...late)).toBeGreaterThan(50);
  });
});

test('one-minute rows lie on the ten-minute ones, and the weather is as asked', () => {
  const at = (outputStepSeconds: number) =>
    simulateCourse(gardenBin.parameters, { days: 3, outputStepSeconds, weatherAt: spring });
  const [fine, coarse] = [at(60), at(600)];
  expect(fine.length).toBe(3 * 1440 + 1);
  for (let row = 0; row < coarse.length; row += 1) {
    expect(fine.series.coreCelsius[row * 10]).toBeCloseTo(coarse.series.coreCelsius[row]!, 4);
  }
  expect(fine.series.coreCelsius[0]).toBe(15);
});
