import { expect } from 'vitest';
import { type Blend, blend } from '../../shared/compost/mix/blend.ts';
import {
  carbonFromNitrogen,
  carbonFromOrganic,
  moistureFromWeights,
} from '../../shared/compost/mix/composition.ts';
import { feedstocks } from '../../shared/compost/mix/feedstocks.ts';
import type { Goal } from '../../shared/compost/mix/goal.ts';
import { type Ingredient, type Part, partByVolume, water } from '../../shared/compost/mix/ingredient.ts';
import { ingredientFromFeedstock, type Measured } from '../../shared/compost/mix/ingredientFromFeedstock.ts';
import { roughCarbonToNitrogen, roughShareOfSecond } from '../../shared/compost/mix/roughMix.ts';
import { solveMix } from '../../shared/compost/mix/solveMix.ts';
import type { CheckRow } from './checkRow.ts';
import { expectFigures, expectNear } from './expectNear.ts';

/** An ingredient as the worked examples print it: percent moisture, carbon and nitrogen. */
function ingredient(name: string, moisture: number, carbon: number, nitrogen: number): Ingredient {
  return {
    name,
    moistureFraction: moisture / 100,
    carbonFractionDry: carbon / 100,
    nitrogenFractionDry: nitrogen / 100,
    organicFractionDry: null,
    bulkDensityKilogramsPerCubicMetre: null,
    soaksIn: false,
  };
}

const grass = ingredient('Grass', 77, 45, 2.4);
const leaves = ingredient('Leaves', 35, 50, 0.75);
const layerManure = ingredient('Layer manure', 70, 60, 6);
const sawdust = ingredient('Sawdust', 35, 55, 0.11);
const foodScraps = ingredient('Food scraps', 69, 36, 2.4);
const dryLeaves = ingredient('Leaves', 38, 48.6, 0.9);

const of = (each: Ingredient, wetKilograms: number): Part => ({ ingredient: each, wetKilograms });
const moisture = (fraction: number): Goal => ({ kind: 'moisture', fraction });
const ratio = (value: number): Goal => ({ kind: 'carbon-to-nitrogen', ratio: value });

/** Amounts that meet the goals; fails when they are reported infeasible. */
function amounts(fixed: Part[], unknowns: Ingredient[], goals: Goal[]): readonly number[] {
  const solution = solveMix({ fixed, unknowns, goals });
  if (!solution.feasible) throw new Error(solution.why);
  return solution.amounts;
}

function fromTable(id: string, measured: Measured = {}): Ingredient {
  const made = ingredientFromFeedstock(feedstocks.find((each) => each.id === id)!, measured);
  if (made.ingredient === null) throw new Error(`${id} lacks ${made.missing}`);
  return made.ingredient;
}

const cattleAndStalks = (manure: Ingredient, stalks: Ingredient): Blend =>
  blend([of(manure, 2), of(stalks, 1)]);

export const rows: CheckRow[] = [
  {
    id: 'MIX-01',
    source: 'WE1',
    status: 'CL2',
    check: () => expectNear(moistureFromWeights(10, 2.3), 0.77, 1e-9),
  },
  {
    id: 'MIX-02',
    source: 'WE2',
    status: 'CL2',
    check: () => expectNear(amounts([of(grass, 10)], [leaves], [moisture(0.6)])[0]!, 6.8, 1e-9),
  },
  {
    id: 'MIX-03',
    source: 'WE3, eq 1e',
    status: 'MU+CP',
    check: () => {
      const [kilograms] = amounts([of(grass, 10)], [leaves], [ratio(30)]);
      expectNear(kilograms!, 3.474, 1e-4);
      expectNear(blend([of(grass, 10), of(leaves, kilograms!)]).moistureFraction, 0.6617, 1e-4);
    },
  },
  {
    id: 'MIX-04',
    source: 'WE4, eq 1d',
    status: 'MU+CP',
    check: () => expectNear(blend([of(grass, 10), of(leaves, 6.8)]).carbonToNitrogen, 36.73, 1e-4),
  },
  {
    id: 'MIX-05',
    source: 'WE5',
    status: 'MU+CP',
    check: () => expectNear(amounts([of(layerManure, 1)], [sawdust], [moisture(0.6)])[0]!, 0.4, 1e-9),
  },
  {
    id: 'MIX-06',
    source: 'eq 1d',
    status: 'CP',
    check: () => expectFigures(blend([of(layerManure, 1), of(sawdust, 0.4)]).carbonToNitrogen, 17.66, 4),
  },
  {
    id: 'MIX-07',
    source: 'WE6',
    status: 'MU+CP',
    check: () => {
      const [kilograms] = amounts([of(layerManure, 1)], [sawdust], [ratio(25)]);
      expectNear(kilograms!, 0.795, 1e-4);
      expectNear(blend([of(layerManure, 1), of(sawdust, kilograms!)]).moistureFraction, 0.545, 1e-4);
    },
  },
  {
    id: 'MIX-08',
    source: 'WE7, rough method',
    status: 'CL2',
    check: () => {
      // The pack says "goal 30" and notes that the copy's closing sentence says 20: the printed shares are those of
      // 20 (0.898 x 7.5 + 0.102 x 130 = 20.0); 30 would take 0.8163 / 0.1837.
      const straw = roughShareOfSecond(7.5, 130, 20);
      expectNear(1 - straw, 0.898, 1e-4);
      expectFigures(straw, 0.102, 4);
      expectFigures(straw / (1 - straw), 0.1136, 4);
      expectFigures(1 - roughShareOfSecond(7.5, 130, 30), 0.8163, 4);
    },
  },
  {
    id: 'MIX-09',
    source: 'eq 1d, and the rough average beside it',
    status: 'CP',
    check: () => {
      const mix = cattleAndStalks(fromTable('cattle-manure'), fromTable('corn-stalks-loose-unshredded'));
      expectNear(mix.carbonToNitrogen, 38.15, 1e-4);
      const rough = roughCarbonToNitrogen([
        { mass: 2, ratio: 19 },
        { mass: 1, ratio: 66.5 },
      ]);
      expectNear(rough, 34.83, 1e-3);
    },
  },
  {
    id: 'MIX-10',
    source: 'eq 1d, dry parts',
    status: 'CP',
    check: () => {
      const dry = { moistureFraction: 0 };
      const mix = cattleAndStalks(
        fromTable('cattle-manure', dry),
        fromTable('corn-stalks-loose-unshredded', dry),
      );
      expectFigures(mix.carbonToNitrogen, 25.05, 4);
    },
  },
  {
    id: 'MIX-11',
    source: 'eq 1h',
    status: 'CP',
    check: () => {
      const found = amounts([of(foodScraps, 100)], [dryLeaves, water], [ratio(30), moisture(0.6)]);
      expectNear(found[0]!, 83.33, 1e-4);
      expectFigures(found[1]!, 23.33, 4);
    },
  },
  {
    id: 'MIX-12',
    source: 'eq 1h',
    status: 'CP',
    check: () => {
      const problem = {
        fixed: [of(grass, 10)],
        unknowns: [leaves, water],
        goals: [ratio(30), moisture(0.6)],
      };
      const solution = solveMix(problem);
      if (solution.feasible) throw new Error('the mix is too wet, yet was called feasible');
      expectNear(solution.wanted![1]!, -2.079, 1e-3);
      expect(solution.unreachable).toEqual(moisture(0.6));
      expect(solution.why).toContain('taking away 2.08 kg of water');
    },
  },
  {
    id: 'MIX-13',
    source: 'eq 1g',
    status: 'CL',
    check: () => {
      expectNear(carbonFromOrganic(1 - 0.1), 0.5, 1e-4);
      expectFigures(carbonFromOrganic(1 - 0.2), 0.4444, 4);
    },
  },
  {
    id: 'MIX-14',
    source: 'eq 1f',
    status: 'CL',
    check: () => {
      expectNear(carbonFromNitrogen(0.106, 3.6), 0.3816, 1e-4);
      expectNear(carbonFromNitrogen(0.024, 19), 0.456, 1e-4);
    },
  },
  {
    id: 'MIX-15',
    source: 'eq 1d, 1i',
    status: 'CP',
    check: () => {
      const loose = fromTable('leaves-loose-and-dry', { bulkDensityKilogramsPerCubicMetre: 178 });
      const mix = blend([partByVolume(loose, 3), partByVolume(fromTable('cattle-manure'), 1)]);
      expectNear(mix.moistureFraction, 0.6459, 1e-3);
      expectNear(mix.carbonToNitrogen, 34.06, 1e-3);
      expectNear(mix.bulkDensityKilogramsPerCubicMetre, 349.8, 1e-3);
    },
  },
  {
    id: 'MIX-WE8',
    source: 'WE8, rough method (no id in the table)',
    status: 'CL2',
    check: () => {
      const rough = roughCarbonToNitrogen([
        { mass: 2, ratio: 15 },
        { mass: 1, ratio: 65 },
      ]);
      expectNear(rough, 31.67, 1e-3);
    },
  },
  {
    id: 'MIX-WE9',
    source: 'WE9, rough method (no id in the table)',
    status: 'CL2 (problem), CP (answer)',
    check: () => {
      const stalks = roughShareOfSecond(25, 60, 30);
      expectNear((5 * stalks) / (1 - stalks), 0.8333, 1e-4);
    },
  },
];
