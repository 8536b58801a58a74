import { feedstocks } from '../mix/feedstocks.ts';
import { type Goal, goalTerms } from '../mix/goal.ts';
import { type Ingredient, water } from '../mix/ingredient.ts';
import { ingredientFromFeedstock } from '../mix/ingredientFromFeedstock.ts';
import { type MixProblem, solveAmounts } from '../mix/mixSystem.ts';
import { packed } from './mixFigures.ts';
import { packingRange } from './plan.ts';

/** Something to use in place of one of the unknowns that makes the aims reachable. */
export interface Help {
  /** Row of the feedstock table, or `water`. */
  readonly id: string;
  readonly name: string;
  readonly insteadOf: string;
  readonly kilograms: number;
}

/** Things most yards can get, in the order they are offered (ours); all are rows of the table. */
const helpers = [
  'leaves-loose-and-dry',
  'straw-wheat',
  'straw-general',
  'wood-chips-shavings-hardwood',
  'shrub-trimmings',
  'corrugated-cardboard',
  'sawdust',
  'horse-manure-general-bedded',
  'grass-clippings-loose',
  'broiler-litter',
  'cattle-manure',
  'coffee-grounds-spent',
  'food-waste-household-garbage',
] as const;

/** Most suggestions shown. */
const mostShown = 3;

/**
 * Tries what would help: each common ingredient in place of each unknown, keeping those that meet every aim with
 * nothing taken away. Computed, not guessed; lightest first. Empty when no single swap does it.
 */
export function whatWouldHelp(problem: MixProblem): Help[] {
  const found = candidates().flatMap(({ id, ingredient }) =>
    problem.unknowns.flatMap((replaced, index) => tryOne(problem, index, { id, ingredient, replaced })),
  );
  const best = new Map<string, Help>();
  for (const help of found.sort((a, b) => a.kilograms - b.kilograms))
    if (!best.has(help.id)) best.set(help.id, help);
  return [...best.values()].slice(0, mostShown);
}

interface Swap {
  readonly id: string;
  readonly ingredient: Ingredient;
  readonly replaced: Ingredient;
}

function tryOne(problem: MixProblem, index: number, { id, ingredient, replaced }: Swap): Help[] {
  if (
    [...problem.unknowns, ...problem.fixed.map((part) => part.ingredient)].some(
      ({ name }) => name === ingredient.name,
    )
  )
    return [];
  const unknowns = problem.unknowns.map((each, place) => (place === index ? ingredient : each));
  try {
    const amounts = solveAmounts({ ...problem, unknowns });
    if (amounts === null || amounts.some((amount) => !(amount >= 0))) return [];
    const kilograms = amounts[index]!;
    const isUseful = kilograms > 0 && kilograms < 1e5;
    return isUseful ? [{ id, name: ingredient.name, insteadOf: replaced.name, kilograms }] : [];
  } catch (error) {
    // A helper whose bulk density nobody printed cannot answer a volume aim; it is simply not offered.
    if (error instanceof RangeError) return [];
    throw error;
  }
}

function candidates(): { id: string; ingredient: Ingredient }[] {
  const fromTable = helpers.flatMap((id) => {
    const feedstock = feedstocks.find((each) => each.id === id);
    if (feedstock === undefined) throw new RangeError(`no feedstock ${id}`);
    const { low, high } = feedstock.moistureFraction;
    const middle =
      feedstock.moistureFraction.typical ?? (low !== null && high !== null ? (low + high) / 2 : null);
    const made = ingredientFromFeedstock(feedstock, middle === null ? {} : { moistureFraction: middle });
    return made.ingredient === null
      ? []
      : [{ id, ingredient: packed(made.ingredient, packingRange.typical) }];
  });
  return [...fromTable, { id: 'water', ingredient: water }];
}

/** What people do about an aim that is missed, whatever the ingredients. Common practice, no source. */
export function adviceFor(missed: Goal, reached: number): string {
  const { target } = goalTerms(missed);
  const low = reached < target;
  switch (missed.kind) {
    case 'moisture':
      return low
        ? 'It stays too dry: add water, or something wetter.'
        : 'It stays too wet: let wet things drain or wilt in a thin layer first and type the lower moisture, or add something dry.';
    case 'carbon-to-nitrogen':
      return low
        ? 'It stays too rich in nitrogen: add something woody or strawy, or use less of the richest ingredient.'
        : 'It stays too lean: add something rich in nitrogen such as manure, grass or coffee grounds.';
    case 'free-air-space':
      return low
        ? 'It stays too dense: add coarse, stiff pieces such as chips or stalks, or less water.'
        : 'It stays looser than asked: shred finer, or accept it. Loose is rarely harmful, though it dries faster.';
    case 'bulk-density':
      return low
        ? 'It stays too light: shred finer or wet it.'
        : 'It stays too heavy: add coarse, dry pieces.';
    case 'mass':
    case 'volume':
      return low
        ? 'There is not enough to make that much.'
        : 'What is decided already is more than that: ask for more, or type smaller amounts.';
  }
}
