import fc from 'fast-check';
import { expect, test } from 'vitest';
import { intervene } from './interventions.ts';
import { pileParameters } from './parameters.ts';
import { oxygenLeft } from './reaction.ts';
import { gardenBin, turnedWindrow } from './scenarios.ts';
import { copyState, createPileState, totalDryKg, volumeM3 } from './state.ts';
import { stepPile } from './step.ts';
import { steadyWeather } from './weather.ts';

const mild = steadyWeather({ airCelsius: 15 })(0);
const { parameters } = gardenBin;

test('stepping leaves the state it was given alone and always gives the same answer', () => {
  const start = createPileState(parameters);
  const before = copyState(start);
  const once = stepPile(start, parameters, mild, 86_400);
  expect(start).toEqual(before);
  expect(stepPile(start, parameters, mild, 86_400)).toEqual(once);
});

test('many short steps and one long one agree to a fraction of a degree', () => {
  let short = createPileState(parameters);
  for (let minute = 0; minute < 4 * 24 * 30; minute += 1) short = stepPile(short, parameters, mild, 120);
  const long = stepPile(createPileState(parameters), parameters, mild, 4 * 86_400);
  expect(short.elapsedSeconds).toBeCloseTo(long.elapsedSeconds, 6);
  expect(long.celsius[0]).toBeGreaterThan(50);
  expect(Math.abs(short.celsius[0]! - long.celsius[0]!)).toBeLessThan(0.5);
});

test('a pile of inert matter comes to the temperature of the air and ground around it', () => {
  const inert = pileParameters({
    shape: { kind: 'cylinder', radiusMetres: 0.4, heightMetres: 0.8 },
    material: { degradableFraction: 0, startCelsius: 60, moistureFraction: 0.05 },
    surface: { wetSurfaceFraction: 0 },
    air: { opennessFraction: 0 },
  });
  const state = stepPile(createPileState(inert), inert, mild, 120 * 86_400);
  for (const celsius of state.celsius) expect(celsius).toBeCloseTo(15, 1);
});

test('turning a hot windrow makes it dip 5 to 20 C, evens it out and loosens it', () => {
  const hot = stepPile(createPileState(turnedWindrow.parameters), turnedWindrow.parameters, mild, 6 * 86_400);
  const turned = intervene(hot, turnedWindrow.parameters, { atSeconds: 0, kind: 'turn' }, mild);
  const dip = hot.celsius[0]! - turned.celsius[0]!;
  expect(dip).toBeGreaterThan(5);
  expect(dip).toBeLessThan(20);
  expect(turned.celsius[0]).toBeCloseTo(turned.celsius[2]!, 9);
  expect(volumeM3(turned, turnedWindrow.parameters)).toBeGreaterThan(volumeM3(hot, turnedWindrow.parameters));
  const recovered = stepPile(turned, turnedWindrow.parameters, mild, 2 * 86_400);
  expect(recovered.celsius[0]).toBeGreaterThan(hot.celsius[0]! - 5);
});

test('watering cools and wets, adding feeds', () => {
  const hot = stepPile(createPileState(parameters), parameters, mild, 5 * 86_400);
  const watered = intervene(hot, parameters, { atSeconds: 0, kind: 'water', litres: 50, celsius: 10 }, mild);
  expect(watered.celsius[0]).toBeLessThan(hot.celsius[0]! - 3);
  expect(watered.waterKg[0]).toBeGreaterThan(hot.waterKg[0]!);
  const fed = intervene(
    hot,
    parameters,
    { atSeconds: 0, kind: 'add', wetKg: 50, material: parameters.material },
    mild,
  );
  expect(totalDryKg(fed) - totalDryKg(hot)).toBeCloseTo(20, 9);
});

test('a material no compost can have is refused by name', () => {
  const wrong = pileParameters({ shape: parameters.shape, material: { moistureFraction: 1.2 } });
  expect(() => createPileState(wrong)).toThrow(/moistureFraction is 1.2/);
});

test('oxygen settles where supply meets demand', () => {
  const positive = fc.double({ min: 1e-9, max: 1, noNaN: true });
  fc.assert(
    fc.property(
      positive,
      positive,
      fc.double({ min: 0, max: 0.21, noNaN: true }),
      (supply, demand, source) => {
        const left = oxygenLeft(supply, source, demand, 0.02);
        expect(left).toBeGreaterThanOrEqual(0);
        expect(left).toBeLessThanOrEqual(source);
        const used = demand * (left / (0.02 + left)) * (0.23 / 0.21);
        expect(Math.abs(supply * (source - left) - used)).toBeLessThanOrEqual(1e-9 * (supply + demand));
      },
    ),
  );
});
