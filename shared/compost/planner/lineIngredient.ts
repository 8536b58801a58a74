import type { Feedstock, TypicalValue } from '../mix/feedstockRow.ts';
import { type Ingredient, water } from '../mix/ingredient.ts';
import { ingredientFromFeedstock, type Measured } from '../mix/ingredientFromFeedstock.ts';
import { feedstockOf, figureOf, isWater } from './figures.ts';
import { type FigureName, figureNames, type PlanLine } from './plan.ts';

export type LineReading =
  | { readonly ingredient: Ingredient; readonly assumptions: readonly string[] }
  | { readonly ingredient: null; readonly problem: string };

const nothing: TypicalValue = { typical: null, low: null, high: null };

/** A line of the plan as an ingredient, with what had to be assumed; or what must still be measured, in plain words. */
export function readLine(line: PlanLine): LineReading {
  if (isWater(line)) return { ingredient: water, assumptions: [] };
  const feedstock = feedstockOf(line) ?? blank(line.name);
  try {
    const made = ingredientFromFeedstock(feedstock, measuredOf(line));
    if (made.ingredient === null) return { ingredient: null, problem: missingWords(line, made.missing) };
    return { ingredient: made.ingredient, assumptions: [...middles(line), ...made.assumptions] };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { ingredient: null, problem: error.message };
  }
}

function blank(name: string): Feedstock {
  return {
    id: 'own',
    name,
    nitrogenFractionDry: nothing,
    carbonToNitrogen: nothing,
    moistureFraction: nothing,
    bulkDensityKilogramsPerCubicMetre: nothing,
    status: 'from memory (unconfirmed)',
    seenIn: 'MU',
  };
}

/** Everything the line says, and the middle of a range where the table prints no typical value. */
function measuredOf(line: PlanLine): Measured {
  const value = (name: FigureName) => {
    const figure = figureOf(line, name);
    return figure.valueFrom === 'you' || figure.valueFrom === 'middle of the printed range'
      ? figure.value
      : null;
  };
  const moisture = value('moistureFraction');
  const nitrogen = value('nitrogenFractionDry');
  const ratio = value('carbonToNitrogen');
  const ash = value('ashFractionDry');
  const density = value('bulkDensity');
  return {
    ...(line.name.trim() === '' ? {} : { name: line.name.trim() }),
    ...(moisture === null ? {} : { moistureFraction: moisture }),
    ...(nitrogen === null ? {} : { nitrogenFractionDry: nitrogen }),
    ...(ratio === null ? {} : { carbonToNitrogen: ratio }),
    ...(ash === null ? {} : { organicFractionDry: 1 - ash }),
    ...(density === null ? {} : { bulkDensityKilogramsPerCubicMetre: density }),
  };
}

const shownNames: Readonly<Record<FigureName, string>> = {
  moistureFraction: 'moisture',
  nitrogenFractionDry: 'nitrogen',
  carbonToNitrogen: 'C:N',
  ashFractionDry: 'ash',
  bulkDensity: 'bulk density',
};

function middles(line: PlanLine): string[] {
  return figureNames
    .filter((name) => figureOf(line, name).valueFrom === 'middle of the printed range')
    .map((name) => `${shownNames[name]} is the middle of the printed range (no typical value there)`);
}

function missingWords(line: PlanLine, missing: readonly string[]): string {
  const where = feedstockOf(line) === null ? '' : ', which the table does not have';
  const name = line.name.trim() || 'This ingredient';
  const list = missing.map((each) => each.replace('carbon to nitrogen ratio', 'C:N')).join(' and ');
  return `${name}: type its ${list}${where}.`;
}
