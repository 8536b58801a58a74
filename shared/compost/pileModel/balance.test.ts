import fc from 'fast-check';
import { expect, test } from 'vitest';
import { balanceGaps } from './balance.ts';
import { applyIntervention, type Intervention } from './interventions.ts';
import { defaultMaterial, type PileParameters, pileParameters } from './parameters.ts';
import { createPileState } from './state.ts';
import { stepPile } from './step.ts';
import { type Weather, yearlyWeather } from './weather.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const shape = fc.oneof(
  fc.record({
    kind: fc.constant('cylinder' as const),
    radiusMetres: between(0.3, 1),
    heightMetres: between(0.4, 2),
  }),
  fc.record({
    kind: fc.constant('windrow' as const),
    widthMetres: between(1, 4),
    heightMetres: between(0.5, 2),
    lengthMetres: between(4, 40),
  }),
);
const material = fc.record({
  moistureFraction: between(0.15, 0.75),
  degradableFraction: between(0.1, 0.9),
  fastRatePerDay: between(0.02, 0.3),
  startCelsius: between(0, 40),
});
const pile = fc.record({ shape, material, channelled: fc.boolean(), haug: fc.boolean() });

const weather = yearlyWeather({
  meanCelsius: 9,
  yearlySwingCelsius: 9,
  dailySwingCelsius: 6,
  startDayOfYear: 40,
});
const wet = (seconds: number): Weather => ({
  ...weather(seconds),
  rainMillimetresPerHour: seconds % 7 < 1 ? 3 : 0,
});

const actions: readonly Intervention[] = [
  { atSeconds: 5 * 86_400, kind: 'water', litres: 80, celsius: 12 },
  { atSeconds: 7 * 86_400, kind: 'turn' },
  { atSeconds: 9 * 86_400, kind: 'pull-channels' },
  { atSeconds: 11 * 86_400, kind: 'add', wetKg: 40, material: { ...defaultMaterial, startCelsius: 8 } },
  { atSeconds: 13 * 86_400, kind: 'open', hours: 6 },
];

/** Thirty days in six-hour steps with every kind of intervention on the way. */
function live(parameters: PileParameters) {
  let state = createPileState(parameters);
  const start = state;
  for (let seconds = 0; seconds < 30 * 86_400; seconds += 21_600) {
    for (const action of actions) {
      if (action.atSeconds === seconds) applyIntervention(state, parameters, action, wet(seconds));
    }
    state = stepPile(state, parameters, wet(seconds), 21_600);
  }
  return { start, end: state };
}

test('energy, water and dry matter balance to one part in a thousand million, whatever the pile', () => {
  fc.assert(
    fc.property(pile, ({ shape: form, material: mix, channelled, haug }) => {
      const parameters = pileParameters({
        shape: form,
        material: mix,
        kinetics: haug ? { response: { kind: 'haug' }, chemicalRatePerDayAt80Celsius: 0.005 } : {},
        ...(channelled ? { channels: {} } : {}),
      });
      const { start, end } = live(parameters);
      for (const { gap, scale } of Object.values(balanceGaps(start, end))) {
        expect(Math.abs(gap)).toBeLessThanOrEqual(1e-9 * scale);
      }
      for (const values of [end.waterKg, end.fastKg, end.slowKg, end.lastingKg])
        expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
    }),
    { numRuns: 60, seed: 20_261_125 },
  );
});

test('the balance notices a leak', () => {
  const { start, end } = live(
    pileParameters({ shape: { kind: 'cylinder', radiusMetres: 0.6, heightMetres: 1.2 } }),
  );
  end.energyJoules[0]! *= 1 + 1e-6;
  end.waterKg[2]! += 1e-5;
  const gaps = balanceGaps(start, end);
  expect(Math.abs(gaps.energy.gap)).toBeGreaterThan(1e-9 * gaps.energy.scale);
  expect(Math.abs(gaps.water.gap)).toBeGreaterThan(1e-9 * gaps.water.scale);
});
